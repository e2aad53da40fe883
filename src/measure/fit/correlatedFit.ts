// The final stage of a fit: generalised least squares, averaged over alternative explanations of the residuals.
//   δ = (Jᵀ V⁻¹ J)⁻¹ Jᵀ V⁻¹ r,   u² = diag (Jᵀ V⁻¹ J)⁻¹                                for each explanation
//   θ = Σ w θ_m,   Σ w P(|θ_m + u_m z − θ| ≤ U) = 95.45 %,   w ∝ exp[(Λ_m − penalty_m) / 2]      over all of them
// Explanations: independent noise; a drift that neighbouring readings share (noiseComponents.ts); and faults of a known
// shape (a sloped background, a weak side peak, ...), each as one more column. Where none of them is seen this is weighted
// least squares. Sources: A. C. Aitken, Proc. R. Soc. Edinb. 55 (1935) 42; K. P. Burnham and D. R. Anderson, Model
// Selection and Multimodel Inference (2002), eq. (4.1) for the weights (from memory); mixtureInterval.ts for U.

import { normalProbability } from '../../numerics/normal'
import { studentT } from '../../numerics/statistics'
import { mixtureHalfWidth } from './mixtureInterval'
import { CORRELATED, findNoise } from './noiseComponents'
import type { NoiseModel } from './noiseModel'
import { oneSided } from './oneSided'
import { type LinearModel, type NoiseComponents, restrictedFit } from './restrictedLikelihood'
import { COVERAGE_FACTOR } from './uncertaintyBudget'

/** A fault of known shape, or of one of several shapes that are equally likely beforehand. */
export interface Fault {
  readonly cause: string
  readonly alternatives: readonly Float64Array[]
  /** Prior size, as a standard deviation about zero. */
  readonly standard: number
  /** Prior odds relative to no fault. */
  readonly odds: number
  /** Likelihood ratio from which it is reported. */
  readonly noted: number
  /** Whether it can only add light, so that its size is never negative. */
  readonly isLight: boolean
}

export interface CorrelatedFit {
  readonly parameters: readonly number[]
  /** Of each parameter, so large that k = 2 covers what Student's t does at these degrees of freedom (JCGM 100 G.3). */
  readonly standards: readonly number[]
  /** The same with independent noise only. */
  readonly independentStandards: readonly number[]
  readonly noise: NoiseComponents
  readonly degreesOfFreedom: number
  /** What the residuals show in addition to independent noise, the most likely first; empty where they show nothing. */
  readonly causes: readonly string[]
}

/** Of the drift of greatest likelihood: two for each of its two variances (H. Akaike, IEEE Trans. Autom. Control 19 (1974) 716). */
const WALK_PENALTY = 4
/**
 * A drift that may be too weak to be seen: step of the source from reading to reading, relative to the constant noise, and its odds
 * relative to no drift. Much of it can pass for noise in proportion to the signal, so that the likelihood speaks against it.
 */
const HIDDEN_STEP = 3.2
const HIDDEN_ODDS = 10

const NORMAL_COVERAGE = 0.9545
const PASSES = 3
const DRIFT = 'the source power drifted or the stage moved unevenly'
const UNEVEN = 'the background is uneven or the mode is not of the fitted shape'

/** From parameters close to the best ones. Null where the steps run away or the parameters are not determined. */
export function correlatedFit(
  start: readonly number[],
  linearise: (parameters: Float64Array) => LinearModel,
  noise: NoiseModel,
  faultsAt: (parameters: Float64Array) => readonly Fault[] = () => [],
): CorrelatedFit | null {
  const p = Float64Array.from(start)
  const count = p.length
  let model = linearise(p)
  let found = findNoise(model, noise)
  for (let pass = 0; pass < PASSES && found !== null; pass++) {
    const next = restrictedFit(model, found.independent.components, 0)
    if (next === null) return null
    step(p, next.shift)
    model = linearise(p)
    if (pass === PASSES - 2) found = findNoise(model, noise)
  }
  if (found === null || p.some((value) => !Number.isFinite(value))) return null
  const alone = restrictedFit(model, found.independent.components, 0)
  const walking = restrictedFit(model, found.components, 0)
  if (alone === null || walking === null) return null

  const n = model.residuals.length
  const top = greatest(model.signal)
  const explanations = [
    { fit: alone, ratio: 0, penalty: 0, cause: '', isNoted: false, isOneShape: false },
    {
      fit: walking,
      ratio: found.correlation,
      penalty: WALK_PENALTY,
      cause: found.components.gainStep * top > found.components.baseStep ? DRIFT : UNEVEN,
      isNoted: found.correlation > CORRELATED,
      isOneShape: false,
    },
  ]
  // The drift of greatest likelihood alone would be none where it is too weak to be seen. Noise in proportion to the signal is left out
  // here, because independent noise takes such a drift for it.
  const { absolute } = found.independent.components
  const hidden = restrictedFit(model, {
    absolute,
    relative: 0,
    jitter: 0,
    gainStep: (HIDDEN_STEP * absolute) / top,
    baseStep: 0,
  })
  if (hidden !== null)
    explanations.push({
      fit: hidden,
      ratio: alone.deviance - hidden.deviance,
      penalty: -2 * Math.log(HIDDEN_ODDS),
      cause: DRIFT,
      isNoted: false,
      isOneShape: false,
    })
  for (const fault of faultsAt(p)) {
    for (const column of fault.alternatives) {
      const fit = restrictedFit(
        { ...model, columns: [...model.columns, column] },
        found.independent.components,
        0,
        fault.standard,
      )
      if (fit === null) continue
      const ratio = n * Math.log((alone.scale * (n - count)) / (fit.scale * Math.max(1, n - count - 1)))
      // What the width of its own size costs (Occam factor), and the choice among alternatives.
      const width = 2 * Math.log(fault.standard / Math.sqrt(fit.covariance.at(-1) as number))
      const bounded = fault.isLight ? oneSided(fit) : { fit, evidence: 1 }
      if (bounded === null) continue
      const penalty = width + 2 * Math.log(fault.alternatives.length / fault.odds / bounded.evidence)
      explanations.push({
        fit: bounded.fit,
        ratio,
        penalty,
        cause: fault.cause,
        isNoted: ratio > fault.noted && (!fault.isLight || (fit.shift.at(-1) as number) > 0),
        isOneShape: fault.alternatives.length === 1,
      })
    }
  }
  const freedom = Math.max(1, n - count - 2)
  const inflation = studentT(NORMAL_COVERAGE, freedom) / COVERAGE_FACTOR
  const mean = averaged(explanations, count, inflation)
  return {
    parameters: Array.from(p, (value, j) => value + (mean.shift[j] as number)),
    standards: mean.halfWidths.map((half) => half / COVERAGE_FACTOR),
    independentStandards: Array.from(
      p,
      (_, j) => inflation * Math.sqrt(alone.covariance[j * (count + 1)] as number),
    ),
    noise: found.components,
    degreesOfFreedom: freedom,
    causes: [
      ...new Set(
        explanations
          .filter(({ isNoted }) => isNoted)
          .sort((a, b) => b.ratio - b.penalty - a.ratio + a.penalty)
          .map(({ cause }) => cause),
      ),
    ],
  }
}

/**
 * Shift of the first `count` parameters over all explanations by their weights, and the half width that holds 95.45 %, each
 * standard uncertainty times `inflation`. What the residuals show is not separated from its alternatives with certainty, so
 * the half width is never less than that of a reported explanation.
 */
function averaged(
  explanations: readonly {
    readonly fit: { readonly shift: Float64Array; readonly covariance: Float64Array }
    readonly ratio: number
    readonly penalty: number
    readonly isNoted: boolean
    readonly isOneShape: boolean
  }[],
  count: number,
  inflation: number,
) {
  const highest = Math.max(...explanations.map(({ ratio, penalty }) => ratio - penalty))
  const raw = explanations.map(({ ratio, penalty }) => Math.exp((ratio - penalty - highest) / 2))
  const total = raw.reduce((sum, weight) => sum + weight, 0)
  // A fault of one shape only, where it is the likeliest, is known well enough to be subtracted.
  const isShapeOpen = explanations.every(({ isOneShape }, m) => !isOneShape || (raw[m] as number) < 1)
  const shift = new Float64Array(count)
  explanations.forEach(({ fit }, m) => {
    for (let j = 0; j < count; j++)
      shift[j] = (shift[j] as number) + ((raw[m] as number) / total) * (fit.shift[j] as number)
  })
  const halfWidths = Array.from(shift, (middle, j) => {
    let spread = 0
    let widest = 0
    const parts = explanations.map(({ fit, isNoted }, m) => {
      const weight = (raw[m] as number) / total
      const offset = (fit.shift[j] as number) - middle
      const square = Math.max(0, fit.covariance[j * (fit.shift.length + 1)] as number)
      spread += weight * offset * offset
      if (isNoted && isShapeOpen) widest = Math.max(widest, square)
      return { weight, offset, standard: inflation * Math.sqrt(square) }
    })
    const noted = widest > 0 ? COVERAGE_FACTOR * inflation * Math.sqrt(widest + spread) : 0
    return Math.max(noted, mixtureHalfWidth(parts, NORMAL_COVERAGE, normalProbability))
  })
  return { shift, halfWidths }
}

function step(p: Float64Array, shift: Float64Array): void {
  for (let j = 0; j < p.length; j++) p[j] = (p[j] as number) + (shift[j] as number)
}

function greatest(values: Float64Array): number {
  let most = 0
  for (const value of values) most = Math.max(most, Math.abs(value))
  return most
}
