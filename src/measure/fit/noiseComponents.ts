// Which noise a scan has: the sizes of its components by restricted likelihood, and whether its residuals are
// correlated from reading to reading.

import { minimiseBrent } from '../../numerics/minimise'
import type { NoiseModel } from './noiseModel'
import {
  type LinearModel,
  type NoiseComponents,
  type RestrictedFit,
  restrictedFit,
} from './restrictedLikelihood'

interface FoundNoise {
  /** Common scale included. */
  readonly components: NoiseComponents
  readonly fit: RestrictedFit
  /** The same with independent noise only. */
  readonly independent: { readonly components: NoiseComponents; readonly fit: RestrictedFit }
  /** Fall of the deviance that the random walks bring: the likelihood-ratio statistic for correlation. */
  readonly correlation: number
}

/**
 * Likelihood ratio from which neighbouring residuals are called correlated. With the limits of the other faults it warns on
 * about 4 % of scans with independent noise (own simulation, tests/measure/intervals). The law ¼ χ²₀ + ½ χ²₁ + ¼ χ²₂ of two variances at the border of what is possible
 * (S. G. Self and K.-Y. Liang, J. Am. Stat. Assoc. 82 (1987) 605) bounds it from above: 5 % beyond 4.23.
 */
export const CORRELATED = 2.5

/** Decrease of the deviance required for one more component: H. Akaike, IEEE Trans. Autom. Control 19 (1974) 716. */
const WORTH_A_COMPONENT = 2

type Name = keyof NoiseComponents
const INDEPENDENT: readonly Name[] = ['relative', 'absolute']
const WALKS: readonly Name[] = ['gainStep', 'baseStep']
/** Logarithm of a component's size relative to the scatter. */
const GRID = { from: -7, to: 5, step: 1 } as const
const CYCLES = 3
/** Of the greatest signal: readings of exact numbers differ by their own last digits. */
const LEAST_SHARE = 1e-9

/** From a start of the independent noise. Null where the parameters of the model are not determined. */
export function findNoise(model: LinearModel, start: NoiseModel): FoundNoise | null {
  const top = greatest(model.signal)
  const steep = greatest(model.slope)
  const scatter = rootMeanSquare(model.residuals) + LEAST_SHARE * top
  const least = (LEAST_SHARE * top) ** 2
  const unit: Readonly<Record<Name, number>> = {
    absolute: scatter,
    relative: top > 0 ? scatter / top : 0,
    jitter: steep > 0 ? scatter / steep : 0,
    gainStep: top > 0 ? scatter / top : 0,
    baseStep: scatter,
  }
  const devianceOf = (c: NoiseComponents) => restrictedFit(model, c, least)?.deviance ?? Infinity
  const first: NoiseComponents = {
    absolute: Math.max(start.absolute, 1e-3 * scatter),
    relative: start.relative,
    jitter: 0,
    gainStep: 0,
    baseStep: 0,
  }
  let independent = descend(first, INDEPENDENT, unit, devianceOf, 2)
  const jittered =
    steep > 0 ? descend(independent, ['jitter', ...INDEPENDENT], unit, devianceOf, 2) : independent
  if (devianceOf(jittered) < devianceOf(independent) - WORTH_A_COMPONENT) independent = jittered
  const free: readonly Name[] = [
    ...WALKS,
    ...INDEPENDENT,
    ...(independent.jitter > 0 ? (['jitter'] as const) : []),
  ]
  const walking = descend(independent, free, unit, devianceOf, CYCLES)
  const whole = restrictedFit(model, walking, least)
  const alone = restrictedFit(model, independent, least)
  if (whole === null || alone === null) return null
  return {
    components: scaled(walking, whole.scale),
    fit: whole,
    independent: { components: scaled(independent, alone.scale), fit: alone },
    correlation: Math.max(0, alone.deviance - whole.deviance),
  }
}

/** One component after the other, each over a grid that holds zero and then between its points. */
function descend(
  start: NoiseComponents,
  names: readonly Name[],
  unit: Readonly<Record<Name, number>>,
  devianceOf: (c: NoiseComponents) => number,
  cycles: number,
): NoiseComponents {
  let best = start
  let lowest = devianceOf(start)
  for (let cycle = 0; cycle < cycles; cycle++) {
    const before = lowest
    for (const name of names) {
      if (unit[name] === 0) continue
      const withSize = (size: number): NoiseComponents => ({ ...best, [name]: size })
      const sizeOf = (log: number) => unit[name] * Math.exp(log)
      let at = Number.NaN
      let found = name === 'absolute' ? Infinity : devianceOf(withSize(0))
      for (let log = GRID.from; log <= GRID.to; log += GRID.step) {
        const deviance = devianceOf(withSize(sizeOf(log)))
        if (deviance < found) [found, at] = [deviance, log]
      }
      let size = 0
      if (!Number.isNaN(at)) {
        const { x, value } = minimiseBrent(
          (log) => devianceOf(withSize(sizeOf(log))),
          at - GRID.step,
          at + GRID.step,
          { tolerance: 0.02, maxIterations: 12 },
        )
        size = sizeOf(value < found ? x : at)
        found = Math.min(value, found)
      }
      if (found < lowest) {
        best = withSize(size)
        lowest = found
      }
    }
    if (before - lowest < 0.01) break
  }
  return best
}

function scaled(c: NoiseComponents, scale: number): NoiseComponents {
  const root = Math.sqrt(scale)
  return {
    absolute: c.absolute * root,
    relative: c.relative * root,
    jitter: c.jitter * root,
    gainStep: c.gainStep * root,
    baseStep: c.baseStep * root,
  }
}

function greatest(values: Float64Array): number {
  let most = 0
  for (const value of values) most = Math.max(most, Math.abs(value))
  return most
}

function rootMeanSquare(values: Float64Array): number {
  let sum = 0
  for (const value of values) sum += value * value
  return Math.sqrt(sum / values.length)
}
