// Several readings of one quantity: mean, spread, standard uncertainty of the mean, and outliers.
//   modified z = 0.6745 (x − median) / MAD, flagged above 3.5
// Source: B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers (ASQC, 1993), from memory.
// Mean and its uncertainty: JCGM 100:2008, 4.2. Flagged readings are never dropped: both means are given.

import { InputError } from '../../numerics/inputError'
import { mean, median, standardDeviation, studentT } from '../../numerics/statistics'

const OUTLIER_LIMIT = 3.5

export interface RepeatedResult {
  readonly count: number
  readonly mean: number
  readonly median: number
  readonly standardDeviation: number
  /** Of the mean: s / √n. */
  readonly standardOfMean: number
  /** Half width of the 95.45 % interval of the mean, by Student t. */
  readonly expanded: number
  /** In input order. */
  readonly modifiedZ: readonly number[]
  readonly flagged: readonly boolean[]
  /** Mean of the readings that are not flagged; equal to `mean` if none is. */
  readonly meanWithoutFlagged: number
}

/** At least two finite readings; flags need at least four, fewer are never flagged. */
export function repeatedMeasurements(readings: readonly number[]): RepeatedResult {
  if (readings.length < 2) throw new InputError('number of readings', readings.length, '2 or more')
  readings.forEach((value, i) => {
    if (!Number.isFinite(value)) throw new InputError(`reading ${i + 1}`, value, 'a finite number')
  })
  const middle = median(readings)
  const mad = median(readings.map((value) => Math.abs(value - middle)))
  // Half the readings equal: the MAD is zero, and the mean absolute deviation takes its place (same source).
  const meanDeviation = mean(readings.map((value) => Math.abs(value - middle)))
  const scale = mad > 0 ? mad / 0.6745 : 1.253314 * meanDeviation
  const modifiedZ = readings.map((value) => (scale > 0 ? (value - middle) / scale : 0))
  const flagged = modifiedZ.map((z) => readings.length >= 4 && Math.abs(z) > OUTLIER_LIMIT)
  const spread = standardDeviation(readings)
  const standardOfMean = spread / Math.sqrt(readings.length)
  return {
    count: readings.length,
    mean: mean(readings),
    median: middle,
    standardDeviation: spread,
    standardOfMean,
    expanded: standardOfMean * studentT(0.9545, readings.length - 1),
    modifiedZ,
    flagged,
    meanWithoutFlagged: mean(readings.filter((_, i) => !flagged[i])),
  }
}
