// Loss over a plane of two displacements around the working point.

import {
  type AxisSamples,
  axisSample,
  fillLossMap,
  type GaussianJoint,
  jointEfficiency,
  lossDb,
  type MisalignmentAxis,
} from '../../optics/index'

/** Higher losses are plotted as this value: no useful light is coupled, and the scale stays finite. */
export const MAP_CEILING_DB = 60

export interface LossMap {
  readonly x: Float64Array
  readonly y: Float64Array
  /** Row-major: `rowsDb[j][i]` belongs to `y[j]`, `x[i]`. */
  readonly rowsDb: readonly Float64Array[]
  readonly atX: number
  readonly atY: number
  readonly hereDb: number
  readonly leastDb: number
}

/** Offsets are looked at to this share of the larger diameter, where a matched pair has lost about 6 dB. */
const OFFSET_REACH = 0.6

/** Half width of a map on each axis, wide enough to show some decibels: um or rad. */
function reach(joint: GaussianJoint, axis: MisalignmentAxis): number {
  const mfdUm = Math.max(
    Math.min(joint.emitterMfdXUm, joint.receiverMfdXUm),
    Math.min(joint.emitterMfdYUm, joint.receiverMfdYUm),
  )
  const largestUm = Math.max(
    joint.emitterMfdXUm,
    joint.receiverMfdXUm,
    joint.emitterMfdYUm,
    joint.receiverMfdYUm,
  )
  const spreadRad = joint.wavelengthUm / (joint.index * largestUm)
  const tilt = Math.min(0.5, spreadRad)
  const sizes: Readonly<Record<MisalignmentAxis, number>> = {
    offsetXUm: OFFSET_REACH * largestUm,
    offsetYUm: OFFSET_REACH * largestUm,
    gapUm: (Math.PI * joint.index * mfdUm * largestUm) / (2 * joint.wavelengthUm),
    tiltXRad: tilt,
    tiltYRad: tilt,
    rollRad: Math.PI / 2,
  }
  return sizes[axis]
}

export function axisRange(joint: GaussianJoint, axis: MisalignmentAxis): readonly [from: number, to: number] {
  const half = reach(joint, axis)
  const from = joint[axis] - half
  return [axis === 'gapUm' ? Math.max(0, from) : from, joint[axis] + half]
}

/** `count` samples of an axis over its range. */
export function axisSamples(joint: GaussianJoint, axis: MisalignmentAxis, count: number): AxisSamples {
  const [from, to] = axisRange(joint, axis)
  return { axis, from, to, count }
}

/** Losses over a plane, dB, row by row, as a map; `hereDb` is the loss at the working point. */
export function mapOf(
  joint: GaussianJoint,
  x: AxisSamples,
  y: AxisSamples,
  lossesDb: Float64Array,
  hereDb: number,
): LossMap {
  let leastDb = MAP_CEILING_DB
  for (let cell = 0; cell < lossesDb.length; cell++) leastDb = Math.min(leastDb, lossesDb[cell] as number)
  return {
    x: Float64Array.from({ length: x.count }, (_, i) => axisSample(x, i)),
    y: Float64Array.from({ length: y.count }, (_, i) => axisSample(y, i)),
    rowsDb: Array.from({ length: y.count }, (_, row) =>
      lossesDb.subarray(row * x.count, (row + 1) * x.count),
    ),
    atX: joint[x.axis],
    atY: joint[y.axis],
    hereDb,
    leastDb,
  }
}

/** The map of `count` by `count` points. Throws InputError for a bad joint or equal axes. */
export function toleranceMap(
  joint: GaussianJoint,
  x: MisalignmentAxis,
  y: MisalignmentAxis,
  count: number,
): LossMap {
  const [sx, sy] = [axisSamples(joint, x, count), axisSamples(joint, y, count)]
  const losses = fillLossMap(joint, sx, sy, MAP_CEILING_DB, new Float64Array(count * count))
  return mapOf(joint, sx, sy, losses, lossDb(jointEfficiency(joint)))
}
