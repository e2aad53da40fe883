// Fits of real joints, and exact sums at points, computed on the spot: in workers, commands and tests.

import { InputError } from '../../../numerics/inputError'
import { finish } from '../../../numerics/steps'
import type { GaussianJoint } from '../../../optics/index'
import { fieldWindowSteps } from '../fieldTolerance'
import { relayLossSteps, relayWindowSteps } from '../relayTolerance'
import { type ExactDifference, exactDifference } from './exactDifference'
import { fitJointSteps } from './fitJoint'
import { fitRelaySteps } from './fitRelay'
import { FIT_AXES, type FitAxis, type JointRegion } from './jointAxes'
import { FIT_ERROR_DB } from './jointFit'
import { type DirectSums, type FieldAnswer, type FieldSubject, fitWith } from './knownFits'
import { pointSums } from './pointSums'
import { realOptimum } from './realOptimum'
import type { RelaySides } from './relayAxes'
import { relayDifference } from './relayDifference'
import { holds } from './summedBeyond'
import { windowNumbers } from './windowNumbers'

/** Grids of direct sums agree to this, dB: half of what a fit may be off. */
const DIRECT_DB = FIT_ERROR_DB / 2

/** Steps of one answer; null as in KnownFit. */
export function* answerSteps(subject: FieldSubject): Generator<number, FieldAnswer, void> {
  try {
    switch (subject.kind) {
      case 'gap':
        return yield* fitJointSteps(subject.spec, subject.nominal, subject.region)
      case 'relay':
        return yield* fitRelaySteps(subject.sides, subject.directions, subject.region)
      case 'points':
        return yield* pointSums(subject)
      case 'relay points': {
        const of = relayDifference(subject.sides)
        return subject.points.map((point) => of(point).differenceDb)
      }
      case 'windows':
        return windowNumbers(yield* fieldWindowSteps(subject.spec, subject.nominal, subject.turn))
      case 'relay windows':
        return windowNumbers(yield* relayWindowSteps(subject.lenses, subject.nominal))
      case 'relay losses':
        return yield* relayLossSteps(subject.lenses, subject.nominal, subject.over)
      case 'optimum':
        return yield* realOptimum(subject)
    }
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

/**
 * Half widths of the region to which each grid reaches, in those of the region: sizing widens tolerances three times. A wider grid takes
 * longer and is made once a pose beyond the narrower ones is asked for; the first is that of the region, whose margin it is.
 */
const REACHES = [1.1, 1.5, 2, 3, 4] as const
/** Sizes and wavelengths are ratios to the nominal ones, distances end at contact. */
const LEAST: Readonly<Partial<Record<FitAxis, number>>> = {
  gapUm: 0,
  emitterX: 0.5,
  emitterY: 0.5,
  receiverX: 0.5,
  receiverY: 0.5,
  wavelength: 0.5,
}

function widened({ from, to }: JointRegion, by: number): JointRegion {
  const end = (sign: 1 | -1) =>
    FIT_AXES.map((axis, i) => {
      const [low, high] = [from[i] as number, to[i] as number]
      const wide = (low + high + sign * by * (high - low)) / 2
      return Math.max(Math.min(low, LEAST[axis] ?? wide), wide)
    })
  return { from: end(-1), to: end(1) }
}

/** Half widths of the widest region at least, where tolerances hardly move the joint: there it loses some decibels. */
function leastReach({
  wavelengthUm,
  index,
  ...joint
}: GaussianJoint): Readonly<Partial<Record<FitAxis, number>>> {
  const mfdUm = Math.max(joint.emitterMfdXUm, joint.emitterMfdYUm, joint.receiverMfdXUm, joint.receiverMfdYUm)
  const divergenceRad = (2 * wavelengthUm) / (Math.PI * index * mfdUm)
  return {
    offsetXUm: mfdUm / 2,
    offsetYUm: mfdUm / 2,
    gapUm: mfdUm / divergenceRad,
    tiltXRad: divergenceRad,
    tiltYRad: divergenceRad,
    rollRad: Math.PI / 4,
  }
}

/** The last of the regions: no grid reaches further. */
function widestOf(region: JointRegion, nominal: GaussianJoint): JointRegion {
  const { from, to } = widened(region, REACHES[REACHES.length - 1] ?? 1)
  const least = leastReach(nominal)
  const end = (sign: 1 | -1) =>
    FIT_AXES.map((axis, i) => {
      const [low, high] = [from[i] as number, to[i] as number]
      const wide = (low + high) / 2 + sign * (least[axis] ?? 0)
      return sign < 0
        ? Math.max(Math.min(low, LEAST[axis] ?? low), Math.min(low, wide))
        : Math.max(high, wide)
    })
  return { from: end(-1), to: end(1) }
}

/** Sums at any pose, on the narrowest grid that reaches it; beyond the widest those of its nearest pose, or of the last grid where none reaches so far. */
const directSums: DirectSums = (spec, nominal, region) => {
  const regions = [...REACHES.slice(0, -1).map((reach) => widened(region, reach)), widestOf(region, nominal)]
  const made: ExactDifference[] = [exactDifference(spec, nominal, region, DIRECT_DB).of]
  const reaching = (rung: number): ExactDifference => {
    const known = made[rung]
    if (known !== undefined) return known
    const narrower = reaching(rung - 1)
    try {
      made[rung] = exactDifference(spec, nominal, regions[rung] ?? region, DIRECT_DB).of
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      made[rung] = narrower
    }
    return made[rung] ?? narrower
  }
  const widest = regions[regions.length - 1] ?? region
  const nearest = new Float64Array(FIT_AXES.length)
  return (at) => {
    const rung = regions.findIndex((each) => holds(each, at))
    if (rung >= 0) return reaching(rung)(at).differenceDb
    for (let i = 0; i < nearest.length; i++)
      nearest[i] = Math.min(widest.to[i] as number, Math.max(widest.from[i] as number, at[i] as number))
    return reaching(regions.length - 1)(nearest).differenceDb
  }
}

const directRelaySums = (sides: RelaySides) => {
  const of = relayDifference(sides)
  return (at: ArrayLike<number>) => of(at).differenceDb
}

/** From now on every evaluation computes the fits and sums that it wants, each once. */
export function computeFitsHere(): void {
  fitWith((subject) => finish(answerSteps(subject)), directSums, directRelaySums)
}
