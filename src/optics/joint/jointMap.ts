// Efficiency of a joint over a plane spanned by any two of its six degrees of freedom.

import { InputError, requireInRange } from '../../numerics/inputError'
import { type GaussianJoint, JOINT_RANGES, requireJoint } from './gaussianJoint'
import { jointEfficiencyAt } from './joint'

export const MISALIGNMENT_AXES = [
  'offsetXUm',
  'offsetYUm',
  'gapUm',
  'tiltXRad',
  'tiltYRad',
  'rollRad',
] as const
export type MisalignmentAxis = (typeof MISALIGNMENT_AXES)[number]

/** Evenly spaced values of one axis, `from` and `to` included. A single value (count 1) sits at `from`. */
export interface AxisSamples {
  readonly axis: MisalignmentAxis
  readonly from: number
  readonly to: number
  readonly count: number
}

/** Value number i of the axis. */
export function axisSample(samples: AxisSamples, i: number): number {
  if (samples.count === 1) return samples.from
  return samples.from + ((samples.to - samples.from) * i) / (samples.count - 1)
}

/**
 * Fills `out` (row-major, y.count rows of x.count values) with the efficiency of `joint`, its x.axis and y.axis
 * replaced by the samples, and returns it. Throws InputError for a joint or samples outside JOINT_RANGES, equal
 * axes, or an `out` of another length.
 */
export function fillJointMap(
  joint: GaussianJoint,
  x: AxisSamples,
  y: AxisSamples,
  out: Float64Array,
): Float64Array {
  requireJoint(joint)
  requireSamples('x', x)
  requireSamples('y', y)
  if (x.axis === y.axis) throw new InputError('y.axis', y.axis, `another axis than x.axis, ${x.axis}`)
  if (out.length !== x.count * y.count) {
    throw new InputError('out.length', out.length, `x.count times y.count, ${x.count * y.count}`)
  }
  const { wavelengthUm, index, emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm } = joint
  const { waistXUm, waistYUm } = joint
  // The six axes in the order of MISALIGNMENT_AXES, which is the order of jointEfficiencyAt.
  const at = Float64Array.from(MISALIGNMENT_AXES, (axis) => joint[axis])
  const columnAxis = MISALIGNMENT_AXES.indexOf(x.axis)
  const rowAxis = MISALIGNMENT_AXES.indexOf(y.axis)
  for (let row = 0, cell = 0; row < y.count; row++) {
    at[rowAxis] = axisSample(y, row)
    for (let column = 0; column < x.count; column++, cell++) {
      at[columnAxis] = axisSample(x, column)
      out[cell] = jointEfficiencyAt(
        wavelengthUm,
        index,
        emitterMfdXUm,
        emitterMfdYUm,
        receiverMfdXUm,
        receiverMfdYUm,
        at[0] as number,
        at[1] as number,
        at[2] as number,
        at[3] as number,
        at[4] as number,
        at[5] as number,
        waistXUm,
        waistYUm,
      )
    }
  }
  return out
}

/** Throws InputError for an unknown axis, ends outside its range or a count outside 1 to 4096. */
export function requireSamples(name: string, samples: AxisSamples): void {
  if (!MISALIGNMENT_AXES.includes(samples.axis)) {
    throw new InputError(`${name}.axis`, samples.axis, `one of ${MISALIGNMENT_AXES.join(', ')}`)
  }
  const [least, greatest] = JOINT_RANGES[samples.axis]
  requireInRange(`${name}.from (${samples.axis})`, samples.from, least, greatest)
  requireInRange(`${name}.to (${samples.axis})`, samples.to, least, greatest)
  if (!Number.isInteger(samples.count) || samples.count < 1 || samples.count > 4096) {
    throw new InputError(`${name}.count`, samples.count, 'a whole number, 1 to 4096')
  }
}
