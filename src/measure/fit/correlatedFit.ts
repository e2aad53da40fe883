// The last word of a fit: generalised least squares whose weights know that neighbouring readings share a drift.
//   δ = (Jᵀ V⁻¹ J)⁻¹ Jᵀ V⁻¹ r,   u² = diag (Jᵀ V⁻¹ J)⁻¹
// V comes from the residuals themselves (noiseComponents.ts). Where nothing drifts this is weighted least squares.
// Source: A. C. Aitken, Proc. R. Soc. Edinb. 55 (1935) 42.

import { CORRELATED, findNoise } from './noiseComponents'
import type { NoiseModel } from './noiseModel'
import { type LinearModel, type NoiseComponents, restrictedFit } from './restrictedLikelihood'

export interface CorrelatedFit {
  readonly parameters: readonly number[]
  /** Of each parameter, made larger by its own relative standard uncertainty 1/√(2ν) (JCGM 100 E.4.3). */
  readonly standards: readonly number[]
  /** The same with independent noise only. */
  readonly independentStandards: readonly number[]
  readonly noise: NoiseComponents
  readonly degreesOfFreedom: number
  /** Likelihood ratio of the drift; above CORRELATED it is not chance. */
  readonly correlation: number
  readonly isCorrelated: boolean
}

const PASSES = 2
const LAST_STEPS = 2

/** From parameters close to the best ones. Null where the steps run away or the parameters are not determined. */
export function correlatedFit(
  start: readonly number[],
  linearise: (parameters: Float64Array) => LinearModel,
  noise: NoiseModel,
): CorrelatedFit | null {
  const p = Float64Array.from(start)
  const count = p.length
  let model = linearise(p)
  let found = findNoise(model, noise)
  for (let pass = 1; pass < PASSES && found !== null; pass++) {
    step(p, found.fit.shift)
    model = linearise(p)
    found = findNoise(model, noise)
  }
  if (found === null) return null
  step(p, found.fit.shift)
  let last = found.fit
  for (let k = 0; k < LAST_STEPS; k++) {
    model = linearise(p)
    const next = restrictedFit(model, found.components, 0)
    if (next === null) break
    last = next
    step(p, next.shift)
  }
  if (p.some((value) => !Number.isFinite(value))) return null
  const components = Object.values(found.components).filter((size) => size > 0).length
  const freedom = Math.max(1, model.residuals.length - count - Math.min(components, 2))
  const inflation = 1 + 1 / Math.sqrt(2 * freedom)
  const standardsOf = (covariance: Float64Array) =>
    Array.from(p, (_, j) => inflation * Math.sqrt(Math.max(0, covariance[j * (count + 1)] as number)))
  return {
    parameters: [...p],
    standards: standardsOf(last.covariance),
    independentStandards: standardsOf(found.independent.fit.covariance),
    noise: found.components,
    degreesOfFreedom: freedom,
    correlation: found.correlation,
    isCorrelated: found.correlation > CORRELATED,
  }
}

function step(p: Float64Array, shift: Float64Array): void {
  for (let j = 0; j < p.length; j++) p[j] = (p[j] as number) + (shift[j] as number)
}
