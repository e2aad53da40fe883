// A kept stress test: how much the losses had changed at the end of each series.

import { stressTest } from '../../model/measurements/stressSeries'
import type { MeasurementOf } from '../../model/schema/measurement'
import { mean } from '../../numerics/statistics'
import type { MeasurementResult } from './measurementResult'

export function evaluateStress({ rows }: MeasurementOf<'stress'>): MeasurementResult {
  const test = stressTest(rows)
  const changes = test.series.flatMap(({ lossDb, exposure }) => {
    const [first, last] = [lossDb[0], lossDb.at(-1)]
    const isLater = (exposure.at(-1) ?? 0) > (exposure[0] ?? 0)
    return first === undefined || last === undefined || !isLater ? [] : [last - first]
  })
  return {
    method: 'stress',
    stress: {
      unit: test.unit,
      last: test.last,
      readings: rows.lossDb.count,
      assemblies: new Set(test.series.map(({ assembly }) => assembly)).size,
      series: test.series.length,
      meanChangeDb: changes.length === 0 ? null : mean(changes),
      greatestChangeDb: changes.length === 0 ? null : Math.max(...changes),
    },
    mfds: [],
  }
}
