// What is fitted for a relay: its real lenses against paraxial ones, over the directions of
// what moves it.

import { unitPoints } from '../../../numerics/random/unitPoints'
import type { Steps } from '../../../numerics/steps'
import { fitDifference } from './fitDifference'
import type { JointRegion } from './jointAxes'
import type { JointFit } from './jointFit'
import { RELAY_AXES, type RelaySides } from './relayAxes'
import { differenceNear } from './relayDifference'
import { fromDirections, type RelayDirections } from './relayDirections'

const along = (axis: 'X' | 'Y') => RELAY_AXES.flatMap((name, i) => (name.includes(axis) ? [i] : []))

/** About half a second: every relay of a comparison has a fit of its own. */
const MOST_TERMS = 500

/** Poses by which the rays of the fit are judged: the middle of its region, and so many others. */
const LOOKS = 6
const LOOKS_SEED = 20_271_127

function looksOver(directions: RelayDirections, { from, to }: JointRegion): readonly Float64Array[] {
  const sobol = unitPoints('sobol', from.length, LOOKS_SEED)
  const unit = new Float64Array(from.length)
  return Array.from({ length: 1 + LOOKS }, (_, look) => {
    if (look === 0) unit.fill(0.5)
    else sobol.point(look, unit)
    const at = unit.map((share, i) => (from[i] as number) + share * ((to[i] as number) - (from[i] as number)))
    fromDirections(directions, at)
    return at
  })
}

/** Steps of the fit; the region is one of directions. */
export function* fitRelaySteps(
  sides: RelaySides,
  directions: RelayDirections,
  region: JointRegion,
): Steps<JointFit> {
  const of = differenceNear(sides, looksOver(directions, region))
  const point = new Float64Array(RELAY_AXES.length)
  const isDistance = (axis: string) => axis === 'frontUm' || axis === 'backUm'
  return yield* fitDifference({
    region,
    of: (at) => {
      point.set(at)
      fromDirections(directions, point)
      return of(point)
    },
    costs: RELAY_AXES.map(() => 'pose'),
    mirrors: [along('X'), along('Y')],
    exchange: RELAY_AXES.map((axis, i) => (isDistance(axis) ? i : i ^ 1)),
    mostTerms: MOST_TERMS,
    reaches: RELAY_AXES.map((axis) => (isDistance(axis) ? null : 1)),
  })
}
