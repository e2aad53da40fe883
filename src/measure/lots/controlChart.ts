// Control chart of individuals with its moving ranges: whether an assembly stands out.
//   sigma = mean moving range / d2,  limits mean +- 3 sigma;  upper limit of a moving range D4 times the mean range
// d2 and d3 are mean and standard deviation of the range of two standard normal samples; D4 = 1 + 3 d3 / d2.
// Source: the constants for two readings as tabulated in every handbook of quality control (1.128, 0.853, 3.267); W. A. Shewhart,
// Economic Control of Quality of Manufactured Product (1931), and ISO 7870-2 for the chart (both from memory).

import { InputError } from '../../numerics/inputError'
import { mean } from '../../numerics/statistics'

export const RANGE_OF_TWO = {
  d2: 2 / Math.sqrt(Math.PI),
  d3: Math.sqrt(2 - 4 / Math.PI),
  D4: 1 + (3 * Math.sqrt(2 - 4 / Math.PI)) / (2 / Math.sqrt(Math.PI)),
} as const

export interface ControlChart {
  readonly mean: number
  readonly sigma: number
  readonly lower: number
  readonly upper: number
  readonly meanRange: number
  readonly upperRange: number
  /** One for each value after the first. */
  readonly ranges: readonly number[]
  /** Indices of values beyond the limits, and of ranges beyond theirs (index of the later value). */
  readonly outside: readonly number[]
  readonly outsideRanges: readonly number[]
}

const CHART_FEWEST = 4

/** The chart of values in their order. InputError for fewer than four. */
export function controlChart(values: readonly number[]): ControlChart {
  const count = values.length
  if (count < CHART_FEWEST)
    throw new InputError('values', `${count} long`, `at least ${CHART_FEWEST} in their order`)
  const centre = mean(values)
  const ranges = values.slice(1).map((value, i) => Math.abs(value - (values[i] ?? value)))
  const meanRange = mean(ranges)
  const sigma = meanRange / RANGE_OF_TWO.d2
  const [lower, upper] = [centre - 3 * sigma, centre + 3 * sigma]
  const upperRange = RANGE_OF_TWO.D4 * meanRange
  return {
    mean: centre,
    sigma,
    lower,
    upper,
    meanRange,
    upperRange,
    ranges,
    outside: values.flatMap((value, i) => (value < lower || value > upper ? [i] : [])),
    outsideRanges: ranges.flatMap((range, i) => (range > upperRange ? [i + 1] : [])),
  }
}
