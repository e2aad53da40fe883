// How far a source that drifts from reading to reading may have moved a straight line through losses.
//   V = s² (I + q² K),   K_ij = min(i, j) in the order of the readings, from 1;   u² = Σ w(q) s²(q) aᵀ (I + q² K) a
// The reference is the reading before the first, so that the first is already one step away from it.
// a is what least squares makes of the readings, and w(q) the restricted likelihood of each q (fit/restrictedLikelihood.ts):
// with few readings q cannot be estimated, so that all values are weighted.

import { type LinearModel, restrictedFit, varianceThrough } from '../fit/restrictedLikelihood'

/** Steps of the source from reading to reading, relative to the scatter, and their odds relative to no drift. */
const STEPS = [0.5, 1, 2, 4] as const
const ODDS = 0.2
/** Likelihood ratio from which the drift is not chance: as in fit/noiseComponents.ts, for one variance. */
const NOTED = 2
const FEWEST = 5

interface SeriesDrift {
  /** Variance of every parameter relative to that of independent scatter, 1 or more. */
  readonly factor: readonly number[]
  readonly isNoted: boolean
}

/** `weights`: what each fitted parameter is of the readings. Null for too few readings. */
export function seriesDrift(
  residuals: readonly number[],
  columns: readonly Float64Array[],
  weights: readonly Float64Array[],
): SeriesDrift | null {
  const n = residuals.length
  if (n < FEWEST || residuals.every((residual) => Math.abs(residual) < 1e-9)) return null
  const none = new Float64Array(n)
  const model: LinearModel = { residuals: Float64Array.from(residuals), columns, signal: none, slope: none }
  const explanations = [0, ...STEPS].flatMap((baseStep) => {
    const components = { absolute: 1, relative: 0, jitter: 0, gainStep: 0, baseStep }
    const fit = restrictedFit(model, components)
    if (fit === null) return []
    const variance = weights.map((weight) => {
      const { independent, walks } = varianceThrough(weight, model, components)
      const sinceReference = (baseStep * weight.reduce((sum, value) => sum + value, 0)) ** 2
      return fit.scale * (independent + walks + sinceReference)
    })
    return [{ variance, deviance: fit.deviance, odds: baseStep === 0 ? 1 : ODDS / STEPS.length }]
  })
  const [still] = explanations
  if (still === undefined) return null
  const lowest = Math.min(...explanations.map(({ deviance }) => deviance))
  const raw = explanations.map(({ deviance, odds }) => odds * Math.exp((lowest - deviance) / 2))
  const total = raw.reduce((sum, weight) => sum + weight, 0)
  return {
    factor: weights.map((_, j) => {
      const mean = explanations.reduce(
        (sum, { variance }, m) => sum + ((raw[m] as number) / total) * (variance[j] as number),
        0,
      )
      return Math.max(1, mean / (still.variance[j] as number))
    }),
    isNoted: still.deviance - lowest > NOTED,
  }
}
