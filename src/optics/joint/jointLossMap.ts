// Loss of a joint over a plane spanned by any two of its six degrees of freedom.
//
// Over offsets and tilts the loss in decibels is an exact quadratic form (misalignmentForm.ts), along each row of the map
//   loss(x) = a + b x + c x^2
// and no cell needs an exponential. Over gap or roll it is that of fillJointMap.

import { lossDb } from '../beam/decibel'
import type { GaussianJoint } from './gaussianJoint'
import { type AxisSamples, axisSample, fillJointMap, type MisalignmentAxis, requireSamples } from './jointMap'
import { FORM_AXES, misalignmentForm } from './misalignmentForm'

/**
 * Fills `out` (row-major, y.count rows of x.count values) with the loss of `joint` in dB, its x.axis and y.axis replaced by the
 * samples, no value above `ceilingDb` (200 dB at most), and returns it. Throws InputError as fillJointMap does.
 */
export function fillLossMap(
  joint: GaussianJoint,
  x: AxisSamples,
  y: AxisSamples,
  ceilingDb: number,
  out: Float64Array,
): Float64Array {
  const axes: readonly MisalignmentAxis[] = FORM_AXES
  const column = axes.indexOf(x.axis)
  const row = axes.indexOf(y.axis)
  if (column < 0 || row < 0 || column === row || out.length !== x.count * y.count) {
    fillJointMap(joint, x, y, out)
    for (let cell = 0; cell < out.length; cell++) {
      out[cell] = Math.min(ceilingDb, lossDb(out[cell] as number))
    }
    return out
  }
  requireSamples('x', x)
  requireSamples('y', y)
  const { alignedLossDb, curvatureDb } = misalignmentForm(joint)
  const at = Float64Array.from(FORM_AXES, (axis) => joint[axis])
  at[column] = 0
  const c = curvatureDb[5 * column] as number
  for (let j = 0, cell = 0; j < y.count; j++) {
    at[row] = axisSample(y, j)
    let a = alignedLossDb
    let b = 0
    for (let k = 0; k < 4; k++) {
      b += 2 * (curvatureDb[4 * column + k] as number) * (at[k] as number)
      for (let l = 0; l < 4; l++) {
        a += (curvatureDb[4 * k + l] as number) * (at[k] as number) * (at[l] as number)
      }
    }
    for (let i = 0; i < x.count; i++, cell++) {
      const position = axisSample(x, i)
      // Rounding must not make a perfect joint one that gains.
      out[cell] = Math.min(ceilingDb, Math.max(0, a + (b + c * position) * position))
    }
  }
  return out
}
