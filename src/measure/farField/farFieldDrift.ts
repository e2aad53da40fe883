// Effects in the residuals of a far-field scan beyond independent noise: a drift shared by neighbouring readings, and
// the backlash of a rotation stage that was moved both ways.

import { CORRELATED, findNoise } from '../fit/noiseComponents'
import type { NoiseModel } from '../fit/noiseModel'
import type { OrderedScan } from '../fit/orderedScan'
import {
  independentVariance,
  type LinearModel,
  restrictedFit,
  varianceThrough,
} from '../fit/restrictedLikelihood'
import type { FarFieldFit } from './farFieldFit'

interface FarFieldDrift {
  /** Standard uncertainty that correlated residuals add. */
  readonly standardUm: number
  readonly causes: readonly string[]
}

/** Residuals of exact numbers are those of their last digits and of the integration. */
const NUMBER_RESOLUTION = 3e-7
/** Penalty of the drift of greatest likelihood: two more variances. */
const WALK_PENALTY = 2
/** Steps of the source from reading to reading that are too weak to be seen, relative to the noise at the peak, and their odds relative to no drift. */
const HIDDEN_STEPS = [0.15, 0.3, 0.6, 1.2] as const
const HIDDEN_ODDS = 0.25
const HIDDEN_PENALTY = 2 * Math.log(HIDDEN_STEPS.length / HIDDEN_ODDS)
const NONE: FarFieldDrift = { standardUm: 0, causes: [] }

/** `weights`: change of the diameter with every power of the scan, in its order. */
export function farFieldDrift(
  scan: OrderedScan,
  fit: FarFieldFit,
  noise: NoiseModel,
  weights: Float64Array,
): FarFieldDrift {
  const { signal, columns } = fit.linearised(scan.at)
  const slope = columns[1] as Float64Array
  const residuals = scan.power.map((power, i) => power - fit.floorPower - (signal[i] as number))
  const scatter = Math.sqrt(residuals.reduce((sum, each) => sum + each * each, 0) / residuals.length)
  if (scatter < NUMBER_RESOLUTION * fit.peakPower) return NONE
  const model: LinearModel = { residuals, columns, signal, slope }
  const found = findNoise(model, noise)
  if (found === null) return NONE
  const own = found.independent.components
  const alone = restrictedFit(model, own)
  const top = fit.peakPower
  const peakNoise = Math.sqrt(independentVariance(own, top, 0))
  const explanations = [
    { variance: 0, merit: 0 },
    {
      variance: varianceThrough(weights, model, found.components).walks,
      merit: found.correlation - WALK_PENALTY,
    },
    ...HIDDEN_STEPS.map((share) => {
      const walking = { ...own, gainStep: (share * peakNoise) / top }
      const deviance = restrictedFit(model, walking)?.deviance ?? Infinity
      return {
        variance: varianceThrough(weights, model, walking).walks,
        merit: (alone?.deviance ?? deviance) - deviance - HIDDEN_PENALTY,
      }
    }),
  ]
  const highest = Math.max(...explanations.map((each) => each.merit))
  const weightOf = (each: { readonly merit: number }) => Math.exp((each.merit - highest) / 2)
  const total = explanations.reduce((sum, each) => sum + weightOf(each), 0)
  const variance = explanations.reduce((sum, each) => sum + (weightOf(each) / total) * each.variance, 0)
  const isDrift = found.components.gainStep * top > found.components.baseStep
  return {
    standardUm: Math.sqrt(variance),
    causes:
      found.correlation <= CORRELATED
        ? []
        : [
            isDrift
              ? 'the source power drifted, the stage moved unevenly, or the mode is not of the fitted shape'
              : 'the floor is uneven, or light is scattered into a weak skirt or side lobe',
          ],
  }
}

/** Share of the readings that must have been reached from either side. */
const BOTH_WAYS = 0.25

/** Axis of the rising less that of the falling direction, in rad; null for a scan that was moved one way. */
export function farFieldBacklashRad({ taken }: OrderedScan, fit: FarFieldFit): number | null {
  const side = taken.at.map((here, i) => Math.sign(here - (taken.at[i - 1] ?? here)))
  const up = side.reduce((count, value) => count + (value > 0 ? 1 : 0), 0)
  if (Math.min(up, side.length - up) < BOTH_WAYS * side.length) return null
  const { signal, columns } = fit.linearised(taken.at)
  const slope = columns[1] as Float64Array
  const axisFrom = (direction: number) => {
    let moment = 0
    let square = 0
    side.forEach((value, i) => {
      if (value !== direction) return
      const change = slope[i] as number
      moment += change * ((taken.power[i] as number) - fit.floorPower - (signal[i] as number))
      square += change * change
    })
    return square > 0 ? moment / square : 0
  }
  return axisFrom(1) - axisFrom(-1)
}
