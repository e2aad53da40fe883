// Least squares with weights from the data themselves: fit, estimate the noise from the residuals, fit again.
// Needed because bench noise is part constant (detector) and part in proportion to the signal (source), and equal
// weights would then state a wrong uncertainty.

import { type FitResult, type LeastSquaresProblem, leastSquares } from '../../numerics/linear/leastSquares'
import { type NoiseModel, noiseSigma, residualNoise } from './noiseModel'

interface WeightedFit {
  readonly parameters: readonly number[]
  /** Of each parameter, made larger by its own relative standard uncertainty 1/√(2ν) (JCGM 100 E.4.3). */
  readonly standards: readonly number[]
  /** Row-major, scaled and enlarged likewise. */
  readonly covariance: Float64Array
  /** Model less data, in the data's unit. */
  readonly residuals: Float64Array
  readonly noise: NoiseModel
  readonly degreesOfFreedom: number
  readonly converged: boolean
}

const REWEIGHTINGS = 6
/** The noise model's two numbers come from the same residuals. */
const NOISE_PARAMETERS = 2
/** Of the largest signal: keeps weights finite for data without any noise. */
const LEAST_SIGMA = 1e-12
const GOOD_ENDS = new Set<FitResult['end']>(['small-step', 'small-gain', 'exact'])

/**
 * `problem.residuals` are model − data, without weights. `signal` writes the part of the model that carries
 * proportional noise (the model less its background).
 */
export function weightedFit(
  problem: LeastSquaresProblem,
  signal: (parameters: Float64Array, out: Float64Array) => void,
): WeightedFit {
  const n = problem.residualCount
  let fit = leastSquares(problem)
  const residuals = new Float64Array(n)
  const level = new Float64Array(n)
  const sigma = new Float64Array(n)
  let noise: NoiseModel = { absolute: 0, relative: 0 }
  for (let pass = 0; pass < REWEIGHTINGS; pass++) {
    const parameters = Float64Array.from(fit.parameters)
    problem.residuals(parameters, residuals)
    signal(parameters, level)
    noise = residualNoise(residuals, level, n - fit.degreesOfFreedom)
    const top = level.reduce((high, value) => Math.max(high, Math.abs(value)), 0)
    for (let i = 0; i < n; i++) sigma[i] = noiseSigma(noise, level[i] as number) + LEAST_SIGMA * top || 1
    fit = leastSquares({
      ...problem,
      start: fit.parameters,
      residuals: (p, out) => {
        problem.residuals(p, out)
        for (let i = 0; i < n; i++) out[i] = (out[i] as number) / (sigma[i] as number)
      },
    })
  }
  problem.residuals(Float64Array.from(fit.parameters), residuals)
  const freedom = Math.max(1, fit.degreesOfFreedom - NOISE_PARAMETERS)
  const inflation = 1 + 1 / Math.sqrt(2 * freedom)
  const scale = (fit.sumOfSquares / freedom) * inflation * inflation
  const covariance = (fit.unscaledCovariance ?? new Float64Array(fit.parameters.length ** 2)).map(
    (value) => value * scale,
  )
  return {
    parameters: fit.parameters,
    standards: fit.parameters.map((_, j) => Math.sqrt(covariance[j * fit.parameters.length + j] as number)),
    covariance,
    residuals,
    noise,
    degreesOfFreedom: freedom,
    converged: GOOD_ENDS.has(fit.end),
  }
}
