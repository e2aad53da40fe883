// What is fitted for a relay: its real lenses against paraxial ones, over the directions of
// what moves it.

import type { Steps } from '../../../numerics/steps'
import { fitDifference } from './fitDifference'
import type { JointRegion } from './jointAxes'
import type { JointFit } from './jointFit'
import { RELAY_AXES, type RelaySides } from './relayAxes'
import { relayDifference } from './relayDifference'
import { fromDirections, type RelayDirections } from './relayDirections'

const along = (axis: 'X' | 'Y') => RELAY_AXES.flatMap((name, i) => (name.includes(axis) ? [i] : []))

/** About half a second: every relay of a comparison has a fit of its own. */
const MOST_TERMS = 500

/** Steps of the fit; the region is one of directions. */
export function* fitRelaySteps(
  sides: RelaySides,
  directions: RelayDirections,
  region: JointRegion,
): Steps<JointFit> {
  const of = relayDifference(sides)
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
    mostTerms: MOST_TERMS,
    reaches: RELAY_AXES.map((axis) => (isDistance(axis) ? null : 1)),
  })
}
