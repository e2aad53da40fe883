// Power and peak irradiance from face to face, and where the light goes; only where a power is stated.

import { POWER_SHARES } from '../../../analysis/results/lightResults'
import { KW_PER_CM2 } from '../../../analysis/verdicts/lightVerdicts'
import { plainText } from '../../../numerics/numberText'
import { type Block, type NumberCell, table } from '../../document/blocks'
import { percentCell } from '../../document/cells'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const three = (value: number): NumberCell => ({ value, text: plainText(value, 3) })

function build({ choice }: SheetContext): readonly Block[] {
  const power = choice?.candidate.evaluation.power ?? null
  if (power === null) return []
  return [
    table(
      'Power along the path, nominal',
      [
        'Location',
        { label: 'Power', unit: 'mW' },
        { label: '1/e² diameter x', unit: 'µm' },
        { label: 'y', unit: 'µm' },
        { label: 'Peak irradiance', unit: 'kW/cm²' },
        { label: 'Share of limit', unit: '%' },
        'Limit for',
      ],
      power.locations.map(({ label, powerUw, mfdXUm, mfdYUm, irradiance, limit }) => [
        label,
        three(powerUw / 1000),
        three(mfdXUm),
        three(mfdYUm),
        three(irradiance * KW_PER_CM2),
        limit === null ? 'none set' : percentCell(irradiance / limit.irradiance, 0),
        limit?.what ?? '',
      ]),
    ),
    table(
      'Optical power',
      ['Quantity', { label: 'Power', unit: 'mW' }, { label: 'Share', unit: '%' }],
      [
        ...POWER_SHARES.map((name) => ({
          mark: `power-${name}`,
          cells: [name, three(power.shares[name] / 1000), percentCell(power.shares[name] / power.inUw, 1)],
        })),
        { mark: 'power-in', total: true, cells: ['Launched', three(power.inUw / 1000), percentCell(1, 1)] },
      ],
    ),
  ]
}

export const powerSection: SectionSpec = { id: 'power', title: 'Power', build }
