// What is fitted for a relay: its real lenses against paraxial ones, over RELAY_AXES.

import type { Steps } from '../../../numerics/steps'
import { fitDifference } from './fitDifference'
import type { JointRegion } from './jointAxes'
import type { JointFit } from './jointFit'
import { RELAY_AXES, type RelaySides } from './relayAxes'
import { relayDifference } from './relayDifference'

const along = (axis: 'X' | 'Y') => RELAY_AXES.flatMap((name, i) => (name.includes(axis) ? [i] : []))

/** A third of a second: every relay of a comparison has a fit of its own. */
const MOST_TERMS = 500

/** Steps of the fit. */
export function* fitRelaySteps(sides: RelaySides, region: JointRegion): Steps<JointFit> {
  return yield* fitDifference({
    region,
    of: relayDifference(sides),
    costs: RELAY_AXES.map((axis) => (axis === 'frontUm' || axis === 'backUm' ? 'field' : 'pose')),
    mirrors: [along('X'), along('Y')],
    mostTerms: MOST_TERMS,
  })
}
