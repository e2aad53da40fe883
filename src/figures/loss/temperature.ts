// Loss over temperature with the band of simulated assemblies, the assembly temperature and the limit.

import type { TemperatureSweep } from '../../analysis/temperature/temperatureSweep'
import type { NamedLimit } from '../../model/project/lossCriteria'
import { fixedText, plainText, roundedTo } from '../../numerics/numberText'
import { along, lossAxis } from '../axes'
import { type Chart, chart } from '../chart'
import type { Figure } from '../figure'

export function temperatureFigure(sweep: TemperatureSweep, limit: NamedLimit): Figure<Chart> {
  const { temperaturesC: x, lossesDb, bandLowDb, bandHighDb } = sweep
  return {
    id: 'temperature',
    sentence: `Maximum nominal loss ${fixedText(sweep.worstDb, 2)} dB at ${plainText(roundedTo(sweep.worstC, 1))} °C; ${fixedText(sweep.atAssemblyDb, 2)} dB at the assembly temperature of ${plainText(sweep.assemblyC)} °C. Band: 5 to 95 % of simulated assemblies.`,
    picture: chart(
      along('Temperature', '°C', x, 1),
      lossAxis('Insertion loss', lossesDb, bandLowDb, bandHighDb, [limit.limitDb]),
      [
        { kind: 'band', name: '5 to 95 % of assemblies', x, low: bandLowDb, high: bandHighDb },
        { kind: 'line', name: 'nominal', x, y: lossesDb, tone: 'accent' },
        { kind: 'rule', axis: 'y', at: limit.limitDb, label: limit.name },
        { kind: 'rule', axis: 'x', at: sweep.assemblyC, label: 'assembly', dash: 'dot' },
      ],
    ),
    table: {
      columns: [
        { label: 'Temperature', unit: '°C' },
        { label: 'Nominal', unit: 'dB' },
        { label: 'P5', unit: 'dB' },
        { label: 'P95', unit: 'dB' },
      ],
      rows: Array.from(x, (temperature, i) => [
        temperature,
        lossesDb[i] ?? 0,
        bandLowDb[i] ?? 0,
        bandHighDb[i] ?? 0,
      ]),
    },
  }
}
