// First light by the real fields of a joint: the plan and the climb. In steps, because it takes a second or so.

import { RefusalError } from '../../numerics/inputError'
import { fixedText } from '../../numerics/numberText'
import { type Steps, within } from '../../numerics/steps'
import type { FieldJointSpec, GaussianJoint } from '../../optics/index'
import type { RelayFields } from '../field/fit/relayAxes'
import { relayLossOf } from '../field/relayLoss'
import { areaLossSteps } from './areaLoss'
import { type HillClimb, hillClimb } from './hillClimb'
import { DARKEST_FIELD_DB, fieldLossOf } from './realLoss'
import { type SearchPlan, type StationNumbers, searchPlanSteps } from './search'

export interface FieldSearchRequest {
  /** Two modes across a gap, or null for a relay. */
  readonly spec: FieldJointSpec | null
  readonly relay: RelayFields | null
  /** The joint as Gaussians, in the pose that it works in. */
  readonly joint: GaussianJoint
  readonly otherLossDb: number
  readonly leastGapUm: number
  readonly station: StationNumbers
  readonly seed: number
}

export interface FieldSearch {
  readonly plan: SearchPlan
  readonly climb: HillClimb | null
}

/** Share of the work until the plan is there; the table for the climbs takes the rest. */
const PLAN_DONE = 0.6

/** Throws RefusalError where the power margin is more than sums of fields resolve, or no grid holds the joint. */
export function* fieldSearchSteps({
  spec,
  relay,
  joint,
  otherLossDb,
  leastGapUm,
  station,
  seed,
}: FieldSearchRequest): Steps<FieldSearch> {
  const resolvedDb = station.launchDbm - station.detectorFloorDbm - otherLossDb
  if (resolvedDb > DARKEST_FIELD_DB)
    throw new RefusalError(
      `The power margin at the working point is ${fixedText(resolvedDb, 1)} dB; real fields are computed up to ${DARKEST_FIELD_DB} dB only`,
    )
  const lossOf = spec !== null ? fieldLossOf(spec, joint) : relay !== null ? relayLossOf(relay, joint) : null
  if (lossOf === null) throw new Error('neither fields nor lenses')
  const plan = yield* within(0, PLAN_DONE, searchPlanSteps(joint, otherLossDb, station, lossOf, leastGapUm))
  if (plan.search === null || plan.narrowest === null) return { plan, climb: null }
  const { pose, reserveDb } = plan.narrowest
  const lossAt = yield* within(PLAN_DONE, 1, areaLossSteps(pose, plan.search, lossOf))
  return { plan, climb: hillClimb({ reserveDb, seed, lossAt }) }
}
