// How noisy a scan is: a constant part and a part in proportion to the signal.
//   σ² = absolute² + (relative · level)²
// Estimated from residuals by their normal likelihood.

import { minimiseBrent } from '../../numerics/minimise'

export interface NoiseModel {
  readonly absolute: number
  readonly relative: number
}

export function noiseSigma(noise: NoiseModel, level: number): number {
  return Math.hypot(noise.absolute, noise.relative * level)
}

/** Logarithm of absolute / (relative · largest level): from noise in proportion only to constant noise only. */
const RATIO_GRID = { from: Math.log(1e-7), to: Math.log(1e3), steps: 60 } as const

/** From residuals whose standard deviation is σ at `level` (a fit's residuals, inflated for its parameters). */
function fitNoise(residuals: ArrayLike<number>, level: ArrayLike<number>): NoiseModel {
  let top = 0
  for (let i = 0; i < level.length; i++) top = Math.max(top, Math.abs(level[i] as number))
  if (top === 0) return { absolute: 0, relative: 0 }
  // For a given ratio the scale is known in closed form, so that one dimension is left to search.
  const scaleOf = (logRatio: number) => {
    const constant = Math.exp(2 * logRatio)
    let square = 0
    let logSum = 0
    for (let i = 0; i < residuals.length; i++) {
      const shape = constant + ((level[i] as number) / top) ** 2
      square += (residuals[i] as number) ** 2 / shape
      logSum += Math.log(shape)
    }
    const scale = square / residuals.length
    return { scale, cost: residuals.length * Math.log(scale) + logSum }
  }
  const step = (RATIO_GRID.to - RATIO_GRID.from) / RATIO_GRID.steps
  let best = RATIO_GRID.from
  let lowest = Infinity
  for (let k = 0; k <= RATIO_GRID.steps; k++) {
    const { cost } = scaleOf(RATIO_GRID.from + k * step)
    if (cost < lowest) [lowest, best] = [cost, RATIO_GRID.from + k * step]
  }
  if (!Number.isFinite(lowest)) return { absolute: 0, relative: 0 }
  const logRatio = minimiseBrent((x) => scaleOf(x).cost, best - step, best + step, { tolerance: 1e-4 }).x
  const relative = Math.sqrt(scaleOf(logRatio).scale)
  return { absolute: Math.exp(logRatio) * relative, relative: relative / top }
}

/** From the residuals of a fit with this many parameters. */
export function residualNoise(
  residuals: Float64Array,
  level: ArrayLike<number>,
  parameterCount: number,
): NoiseModel {
  const inflation = Math.sqrt(residuals.length / Math.max(1, residuals.length - parameterCount))
  return fitNoise(
    residuals.map((value) => value * inflation),
    level,
  )
}

/**
 * Noise of a smooth curve without a model of it: each point less the cubic through its two neighbours on either
 * side, divided by what independent noise of unit size would give. `at` ascending, five points or more.
 */
export function scanNoise(at: Float64Array, power: Float64Array): NoiseModel {
  const count = Math.max(0, at.length - 4)
  const residuals = new Float64Array(count)
  const level = new Float64Array(count)
  for (let k = 0; k < count; k++) {
    const i = k + 2
    let interpolated = 0
    let square = 1
    for (const j of [i - 2, i - 1, i + 1, i + 2]) {
      let weight = 1
      for (const m of [i - 2, i - 1, i + 1, i + 2]) {
        if (m !== j)
          weight *= ((at[i] as number) - (at[m] as number)) / ((at[j] as number) - (at[m] as number))
      }
      interpolated += weight * (power[j] as number)
      square += weight * weight
    }
    residuals[k] = ((power[i] as number) - interpolated) / Math.sqrt(square)
    level[k] = interpolated
  }
  return fitNoise(residuals, level)
}
