// A kept lot of assemblies: its spread, what it comes from, and whether it drifts.

import { coreValue } from '../../model/quantity/quantity'
import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { lotSummary } from '../lots/lotSummary'
import type { MeasurementResult } from './measurementResult'

export function evaluateLot({ rows, lossUncertainty }: MeasurementOf<'lot'>): MeasurementResult {
  const labelsOf = (role: string) => {
    const found = rows.labels.find((each) => each.role === role)
    return found === undefined ? null : { names: found.names, indices: unpackNumbers(found.values) }
  }
  const lot = lotSummary({
    lossDb: unpackNumbers(rows.lossDb),
    returnLossDb: rows.returnLossDb === undefined ? null : unpackNumbers(rows.returnLossDb),
    day: rows.day === undefined ? null : unpackNumbers(rows.day),
    assembly: labelsOf('assembly'),
    channel: labelsOf('channel'),
    batch: labelsOf('batch'),
    station: labelsOf('station'),
    standardDb: coreValue(lossUncertainty, 'loss'),
  })
  return { method: 'lot', lot, mfds: [] }
}
