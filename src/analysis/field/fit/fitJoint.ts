// What is fitted for a joint of two guides across a gap: its real fields against its Gaussians, over FIT_AXES.

import type { Steps } from '../../../numerics/steps'
import type { FieldJointSpec, GaussianJoint } from '../../../optics/index'
import { exactDifference } from './exactDifference'
import { type AxisCost, fitDifference } from './fitDifference'
import { FIT_AXES, type FitAxis, type JointRegion } from './jointAxes'
import type { JointFit } from './jointFit'

const COSTS: Readonly<Partial<Record<FitAxis, AxisCost>>> = {
  tiltXRad: 'field',
  tiltYRad: 'field',
  rollRad: 'field',
  wavelength: 'field',
  emitterX: 'both fields',
  emitterY: 'both fields',
  receiverX: 'both fields',
  receiverY: 'both fields',
}

const at = (axis: FitAxis) => FIT_AXES.indexOf(axis)
const MIRRORS = [
  [at('offsetXUm'), at('tiltXRad')],
  [at('offsetYUm'), at('tiltYRad')],
]

const MOST_TERMS = 420

/** Steps of the fit; throws InputError where no grid holds the joint. */
export function* fitJointSteps(
  spec: FieldJointSpec,
  nominal: GaussianJoint,
  region: JointRegion,
): Steps<JointFit> {
  const { of } = exactDifference(spec, nominal, region)
  const roll = at('rollRad')
  return yield* fitDifference({
    region,
    of,
    costs: FIT_AXES.map((axis) => COSTS[axis] ?? 'pose'),
    mirrors: region.from[roll] === region.to[roll] ? MIRRORS : [],
    mostTerms: MOST_TERMS,
  })
}
