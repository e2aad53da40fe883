// Which tolerances would explain a lot: their factors on the stated widths, given the measured lot.
// Lots are simulated with factors sampled from a log-normal prior (a factor of 2 is one standard deviation). Of those most like the
// measured lot the factors are regressed on what is compared, and moved along the regression to the measured lot.
// Source: M. A. Beaumont, W. Zhang, D. J. Balding, Genetics 162 (2002) 2025 (approximate Bayesian computation with
// local linear regression and Epanechnikov weights).

import { solveSmall } from '../../numerics/linear/smallSystem'
import { normalQuantile } from '../../numerics/normal'
import { unitPoints } from '../../numerics/random/unitPoints'
import type { Steps } from '../../numerics/steps'

export const PRIOR_LOG_STANDARD = Math.LN2
/** Share of the simulated lots that the regression looks at. */
const NEAREST = 0.4
/** A posterior this wide relative to its prior gives no information on the tolerance. */
const NOT_TOLD = 0.85
/** Coverage of the intervals. */
const TAIL = 0.025

/** Simulated lots: logarithms of the factors, and what is compared of each. */
interface ReferenceTable {
  readonly logFactors: readonly Float64Array[]
  readonly features: readonly Float64Array[]
}

export interface PosteriorFactor {
  /** Median and 95 % interval of the factor on the stated tolerance. */
  readonly factor: number
  readonly low: number
  readonly high: number
  /** Standard deviation of the logarithm relative to that of the prior: near 1 where the lot gives no information. */
  readonly priorShare: number
  readonly verdict: 'wider' | 'tighter' | 'as stated' | 'not distinguishable'
}

/** Simulates `lots` lots with `count` factors sampled from the prior; `featuresOf` compares lot number n. */
export function* referenceSteps(
  count: number,
  lots: number,
  seed: number,
  featuresOf: (lot: number, factors: Float64Array) => Float64Array,
): Steps<ReferenceTable> {
  const points = unitPoints('sobol', Math.max(1, count), seed)
  const point = new Float64Array(points.dimensions)
  const logFactors: Float64Array[] = []
  const features: Float64Array[] = []
  for (let lot = 0; lot < lots; lot++) {
    points.point(lot, point)
    const logs = Float64Array.from({ length: count }, (_, j) => {
      return PRIOR_LOG_STANDARD * normalQuantile(point[j] ?? 0.5)
    })
    logFactors.push(logs)
    features.push(featuresOf(lot, logs.map(Math.exp)))
    yield (lot + 1) / lots
  }
  return { logFactors, features }
}

/** The posterior of every factor for a lot with these features. */
export function posteriorFactors(
  { logFactors, features }: ReferenceTable,
  observed: Float64Array,
): readonly PosteriorFactor[] {
  const lots = features.length
  const scales = observed.map((_, m) => {
    const mean = features.reduce((sum, each) => sum + (each[m] as number), 0) / lots
    return Math.sqrt(features.reduce((sum, each) => sum + ((each[m] as number) - mean) ** 2, 0) / lots) || 1
  })
  const differences = features.map((each) =>
    each.map((value, m) => (value - (observed[m] as number)) / (scales[m] as number)),
  )
  const distances = differences.map((each) => Math.hypot(...each))
  const order = distances.map((_, i) => i).sort((a, b) => (distances[a] as number) - (distances[b] as number))
  const kept = order.slice(0, Math.max(2, Math.ceil(NEAREST * lots)))
  const reach = Math.max(1e-12, distances[kept.at(-1) ?? 0] ?? 0) * (1 + 1e-9)
  const weights = kept.map((i) => 1 - ((distances[i] as number) / reach) ** 2)
  const rows = kept.map((i) => [1, ...(differences[i] ?? [])])
  return Array.from({ length: logFactors[0]?.length ?? 0 }, (_, j) => {
    const values = kept.map((i) => logFactors[i]?.[j] ?? 0)
    const slopes = regression(rows, weights, values)
    const moved = values.map((value, k) =>
      (rows[k] ?? []).reduce((left, x, m) => (m === 0 ? left : left - (slopes[m] as number) * x), value),
    )
    return posteriorOf(moved, weights)
  })
}

/** Weighted least squares by the normal equations; zero slopes where these depend on one another. */
function regression(
  rows: readonly (readonly number[])[],
  weights: readonly number[],
  values: readonly number[],
): readonly number[] {
  const size = rows[0]?.length ?? 0
  const equations = Array.from({ length: size }, (_, a) => [
    ...Array.from({ length: size }, (__, b) =>
      rows.reduce((sum, row, k) => sum + (weights[k] as number) * (row[a] as number) * (row[b] as number), 0),
    ),
    rows.reduce(
      (sum, row, k) => sum + (weights[k] as number) * (row[a] as number) * (values[k] as number),
      0,
    ),
  ])
  return solveSmall(equations) ?? new Array<number>(size).fill(0)
}

function posteriorOf(logs: readonly number[], weights: readonly number[]): PosteriorFactor {
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const order = logs.map((_, k) => k).sort((a, b) => (logs[a] as number) - (logs[b] as number))
  const at = (share: number): number => {
    let below = 0
    for (const k of order) {
      below += (weights[k] as number) / total
      if (below >= share) return logs[k] as number
    }
    return logs[order.at(-1) ?? 0] ?? 0
  }
  const mean = logs.reduce((sum, value, k) => sum + (weights[k] as number) * value, 0) / total
  const variance =
    logs.reduce((sum, value, k) => sum + (weights[k] as number) * (value - mean) ** 2, 0) / total
  const [low, high] = [Math.exp(at(TAIL)), Math.exp(at(1 - TAIL))]
  const priorShare = Math.sqrt(variance) / PRIOR_LOG_STANDARD
  return {
    factor: Math.exp(at(0.5)),
    low,
    high,
    priorShare,
    verdict:
      low > 1 ? 'wider' : high < 1 ? 'tighter' : priorShare > NOT_TOLD ? 'not distinguishable' : 'as stated',
  }
}
