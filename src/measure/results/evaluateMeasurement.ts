// A kept measurement becomes a result: the one way from the project's readings to numbers, on screen and in tests.

import type { Measurement, MeasurementMethod, MeasurementOf } from '../../model/schema/measurement'
import { evaluateFarField } from './evaluateFarField'
import { evaluateImage } from './evaluateImage'
import { evaluateLoopback } from './evaluateLoopback'
import { evaluateLot } from './evaluateLot'
import { evaluateOffset } from './evaluateOffset'
import { evaluateRaster } from './evaluateRaster'
import { evaluateRepeated } from './evaluateRepeated'
import { evaluateStress } from './evaluateStress'
import type { MeasurementResult } from './measurementResult'

const EVALUATE: {
  readonly [M in MeasurementMethod]: (measurement: MeasurementOf<M>) => MeasurementResult
} = {
  'far-field': evaluateFarField,
  offset: evaluateOffset,
  raster: evaluateRaster,
  image: evaluateImage,
  loopback: evaluateLoopback,
  repeated: evaluateRepeated,
  lot: evaluateLot,
  stress: evaluateStress,
}

/** InputError, with the reason, for readings that cannot be evaluated; single signals fail within the result. */
export function evaluateMeasurement(measurement: Measurement): MeasurementResult {
  const evaluate = EVALUATE[measurement.method] as (measurement: Measurement) => MeasurementResult
  return evaluate(measurement)
}
