// How far a source that drifts from reading to reading may have moved a straight line through losses.
//   V = s² (I + q² K),   K_ij = min(i, j) in the order of the readings, from 1
// The reference is the reading before the first, so that the first is already one step away from it. The value remains that of least
// squares, and each step q has its own by generalised least squares, of restricted likelihood w(q) (fit/restrictedLikelihood.ts): with
// few readings q cannot be estimated, so that the interval is that of all of them (fit/mixtureInterval.ts) by Student's t.
// Source: a regression with an unknown scale and an unknown correlation, A. Zellner, An Introduction to Bayesian Inference in
// Econometrics (1971), chapter 4 (from memory).

import { studentT, studentTProbability } from '../../numerics/statistics'
import { mixtureHalfWidth } from '../fit/mixtureInterval'
import { type LinearModel, restrictedFit } from '../fit/restrictedLikelihood'

/** Steps of the source from reading to reading, relative to the scatter. */
const STEPS = [1, 2, 4, 8] as const
/** Prior odds of a source that drifts to one that does not. */
const ODDS = 0.5
/** Likelihood ratio from which the drift is not chance: as in fit/noiseComponents.ts, for one variance. */
const NOTED = 2
const FEWEST = 5

interface SeriesDrift {
  /** Half width of the interval of every parameter relative to that of independent scatter, 1 or more. */
  readonly factor: readonly number[]
  readonly isNoted: boolean
}

/** `columns`: the level first, since the step from the reference moves it. `coverage` of the interval. Null for too few readings. */
export function seriesDrift(
  residuals: readonly number[],
  columns: readonly Float64Array[],
  coverage: number,
): SeriesDrift | null {
  const n = residuals.length
  if (n < FEWEST || residuals.every((residual) => Math.abs(residual) < 1e-9)) return null
  const none = new Float64Array(n)
  const model: LinearModel = { residuals: Float64Array.from(residuals), columns, signal: none, slope: none }
  const explanations = [0, ...STEPS].flatMap((baseStep) => {
    const fit = restrictedFit(model, {
      absolute: 1,
      relative: 0,
      jitter: 0,
      gainStep: 0,
      baseStep,
    })
    if (fit === null) return []
    const standards = columns.map((_, j) => {
      const sinceReference = j === 0 ? fit.scale * baseStep ** 2 : 0
      return Math.sqrt((fit.covariance[j * (columns.length + 1)] as number) + sinceReference)
    })
    const odds = baseStep === 0 ? 1 : ODDS / STEPS.length
    return [{ shift: fit.shift, standards, deviance: fit.deviance, odds }]
  })
  const [still] = explanations
  if (still === undefined) return null
  const lowest = Math.min(...explanations.map(({ deviance }) => deviance))
  const raw = explanations.map(({ deviance, odds }) => odds * Math.exp((lowest - deviance) / 2))
  const freedom = n - columns.length
  return {
    factor: columns.map((_, j) => {
      const half = mixtureHalfWidth(
        explanations.map(({ shift, standards }, m) => ({
          weight: raw[m] as number,
          offset: (shift[j] as number) - (still.shift[j] as number),
          standard: standards[j] as number,
        })),
        coverage,
        (t) => studentTProbability(t, freedom),
      )
      const alone = studentT(coverage, freedom) * (still.standards[j] as number)
      return Math.max(1, half / alone)
    }),
    isNoted: still.deviance - lowest > NOTED,
  }
}
