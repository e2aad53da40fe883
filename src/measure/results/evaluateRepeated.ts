// Kept repeated readings: their mean, and a diameter that can become an entry where they are diameters.

import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { combine, typeA } from '../fit/uncertaintyBudget'
import { repeatedMeasurements } from '../loopback/repeatedMeasurements'
import type { MeasurementResult } from './measurementResult'

export function evaluateRepeated(measurement: MeasurementOf<'repeated'>): MeasurementResult {
  const readings = [...unpackNumbers(measurement.values)]
  const result = repeatedMeasurements(readings)
  // Half of the Student interval is the standard uncertainty that k = 2 turns back into it.
  const budget = combine([typeA('spread of the readings', result.expanded / 2, result.count - 1)])
  return {
    method: 'repeated',
    unit: measurement.unit,
    result,
    readings,
    mfds:
      measurement.unit === 'um'
        ? [
            {
              id: 'mean',
              label: 'mean of the readings',
              axis: null,
              valueUm: result.mean,
              expandedUm: budget.expandedUm,
              method: `mean of ${result.count} readings`,
              budget,
            },
          ]
        : [],
  }
}
