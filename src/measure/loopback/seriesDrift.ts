// How far a source that drifts from reading to reading may have moved a straight line through losses.
//   V = s² (diag(g²) + q² K),   K_ij = min(i, j) in the order of the readings, from 1
// The reference is the reading before the first, so that the first is already one step away from it. Each step q and each way g in which
// the scatter may depend on the reading has its own value by generalised least squares, of restricted likelihood w
// (fit/restrictedLikelihood.ts): with few readings neither can be estimated, so that the value is the mean of them by their weights and the
// interval that of all of them (fit/mixtureInterval.ts) by Student's t.
// Source: a regression with an unknown scale and an unknown correlation, A. Zellner, An Introduction to Bayesian Inference in
// Econometrics (1971), chapter 4 (from memory).

import { studentT, studentTProbability } from '../../numerics/statistics'
import { mixtureHalfWidth } from '../fit/mixtureInterval'
import { type LinearModel, restrictedFit } from '../fit/restrictedLikelihood'

/** Steps of the source from reading to reading, relative to the scatter. */
const STEPS = [1, 2, 4, 8] as const
/** Prior odds of a source that drifts to one that does not. */
const ODDS = 0.6
/** Likelihood ratio from which the drift is not chance: as in fit/noiseComponents.ts, for one variance. */
const NOTED = 2
const FEWEST = 5

/** How the scatter may depend on the reading. */
export interface Scatter {
  /** Standard deviation of each reading, relative to about 1. */
  readonly sizes: Float64Array
  readonly odds: number
}

interface SeriesDrift {
  /** Change of every parameter from the line whose residuals are given. */
  readonly shift: readonly number[]
  /** Half width of the interval of every parameter relative to that of independent scatter of the first kind. */
  readonly factor: readonly number[]
  readonly isNoted: boolean
}

/**
 * `columns`: the level first, since the step from the reference moves it. `scatters`: the first is that of the line whose
 * residuals are given. `coverage` of the interval. Null for too few readings.
 */
export function seriesDrift(
  residuals: readonly number[],
  columns: readonly Float64Array[],
  scatters: readonly Scatter[],
  coverage: number,
): SeriesDrift | null {
  const n = residuals.length
  if (n < FEWEST || residuals.every((residual) => Math.abs(residual) < 1e-9)) return null
  const none = new Float64Array(n)
  const explanations = scatters.flatMap(({ sizes, odds }) => {
    const model: LinearModel = {
      residuals: Float64Array.from(residuals),
      columns,
      signal: sizes,
      slope: none,
    }
    return [0, ...STEPS].flatMap((baseStep) => {
      const fit = restrictedFit(model, { absolute: 0, relative: 1, jitter: 0, gainStep: 0, baseStep })
      if (fit === null) return []
      const standards = columns.map((_, j) => {
        const sinceReference = j === 0 ? fit.scale * baseStep ** 2 : 0
        return Math.sqrt((fit.covariance[j * (columns.length + 1)] as number) + sinceReference)
      })
      const own = odds * (baseStep === 0 ? 1 : ODDS / STEPS.length)
      return [{ shift: fit.shift, standards, deviance: fit.deviance, odds: own, isStill: baseStep === 0 }]
    })
  })
  const [first] = explanations
  if (first === undefined) return null
  const lowest = Math.min(...explanations.map(({ deviance }) => deviance))
  const still = Math.min(...explanations.map(({ deviance, isStill }) => (isStill ? deviance : Infinity)))
  const raw = explanations.map(({ deviance, odds }) => odds * Math.exp((lowest - deviance) / 2))
  const total = raw.reduce((sum, weight) => sum + weight, 0)
  const freedom = n - columns.length
  const mean = columns.map((_, j) =>
    explanations.reduce((sum, { shift }, m) => sum + ((raw[m] as number) / total) * (shift[j] as number), 0),
  )
  return {
    shift: mean,
    factor: mean.map((middle, j) => {
      const half = mixtureHalfWidth(
        explanations.map(({ shift, standards }, m) => ({
          weight: raw[m] as number,
          offset: (shift[j] as number) - middle,
          standard: standards[j] as number,
        })),
        coverage,
        (t) => studentTProbability(t, freedom),
      )
      return half / (studentT(coverage, freedom) * (first.standards[j] as number))
    }),
    isNoted: still - lowest > NOTED,
  }
}
