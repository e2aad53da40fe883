// A kept loopback or cut-back series: facet and propagation loss, and the outliers at their length.

import { coreValue } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { loopbackLoss } from '../loopback/loopback'
import { repeatedMeasurements } from '../loopback/repeatedMeasurements'
import { coordinateOf } from './measurementColumns'
import type { LengthGroup, MeasurementResult } from './measurementResult'

const UM_PER_CM = 1e4

export function evaluateLoopback(measurement: MeasurementOf<'loopback'>): MeasurementResult {
  const lengthsCm = coordinateOf(measurement.columns, 'length').map((lengthUm) => lengthUm / UM_PER_CM)
  const lossesDb = insertionLossesDb(measurement)
  const points = Array.from(lengthsCm, (lengthCm, i) => ({
    lengthCm,
    lossDb: lossesDb[i] ?? Number.NaN,
  }))
  const { propagation } = measurement
  const result = loopbackLoss({
    points,
    ...(propagation === undefined
      ? {}
      : {
          propagationDbPerCm: coreValue(propagation, 'propagationLoss') * UM_PER_CM,
          propagationStandardDbPerCm: coreStandard(propagation, 'propagationLoss') * UM_PER_CM,
        }),
  })
  const flagged = points.map(() => false)
  const groups: LengthGroup[] = []
  for (const lengthCm of new Set(lengthsCm)) {
    const indices = points.flatMap((point, i) => (point.lengthCm === lengthCm ? [i] : []))
    if (indices.length < 2) continue
    const readings = repeatedMeasurements(indices.map((i) => points[i]?.lossDb ?? Number.NaN))
    groups.push({ lengthCm, readings })
    indices.forEach((index, k) => {
      flagged[index] = readings.flagged[k] ?? false
    })
  }
  return {
    method: 'loopback',
    result,
    rows: points.map((point, i) => ({
      ...point,
      residualDb: result.residualsDb[i] as number,
      flagged: flagged[i] ?? false,
    })),
    groups: groups.sort((a, b) => a.lengthCm - b.lengthCm),
    mfds: [],
  }
}

/** The loss column, or the loss of the power column against the reference (or against 1, where it is a ratio). */
function insertionLossesDb({ columns, referencePower }: MeasurementOf<'loopback'>): Float64Array {
  const column = columns.find((each) => each.role === 'loss') ?? columns.find((each) => each.role === 'power')
  if (column === undefined) throw new InputError('number of loss or power columns', 0, '1 or more')
  const values = unpackNumbers(column.values)
  if (column.role === 'loss') return values
  const reference = column.coreUnit === 'uW' ? referencePower && coreValue(referencePower, 'power') : 1
  if (reference === undefined) {
    throw new InputError(
      'reference power',
      undefined,
      'given in µW, because the file contains absolute powers',
    )
  }
  return values.map((power, i) => {
    if (!(power > 0)) throw new InputError(`power ${i + 1}`, power, 'above 0 to be converted to a loss')
    return -10 * Math.log10(power / reference)
  })
}
