// Excess loss of misalignment from the fields of a joint: tolerance windows, a curve and a map. In steps, because it
// takes about a second: each step yields the fraction done.

import type { Steps } from '../../numerics/steps'
import {
  centredGrid,
  type FieldGrid,
  type FieldJointSpec,
  type FieldPose,
  fieldMapGrid,
  fieldPower,
  firstGrid,
  type GaussianJoint,
  lossDb,
  MISALIGNMENT_AXES,
  type MisalignmentAxis,
  type OffsetMap,
  offsetMap,
  propagateField,
  sampleProfile,
} from '../../optics/index'
import { type AxisWindow, axisWindow, type LossCurve, type LossOf } from '../tolerance/toleranceCurve'
import { axisRange, type LossMap, MAP_CEILING_DB } from '../tolerance/toleranceMap'
import type { TiltCentre } from './fit/knownFits'
import { jointByField, knownPair } from './jointField'

export interface FieldToleranceRequest {
  readonly spec: FieldJointSpec
  /** The joint as Gaussians: its pose, and how far the axes reach. */
  readonly joint: GaussianJoint
  readonly x: MisalignmentAxis
  readonly y: MisalignmentAxis
}

export interface FieldTolerance {
  /** What was asked. */
  readonly axes: { readonly x: MisalignmentAxis; readonly y: MisalignmentAxis }
  readonly joint: GaussianJoint
  readonly windows: readonly AxisWindow[]
  readonly curve: LossCurve
  readonly map: LossMap
  /** Of the loss at the working point, by doubling the grid, dB. */
  readonly errorDb: number
}

const CURVE_POINTS = 121
const MAP_POINTS = 41
/** Shares of the work, roughly. */
const WINDOWS_DONE = 0.3
const CURVE_DONE = 0.45

/** Change of the loss at the working point up to which windows, measured from it, use a grid half as fine. */
const COARSE_DB = 0.02
const LEAST_POINTS = 128
/** Relative width of the ends of windows: far finer than the grid. */
const WINDOW_TOLERANCE = 1e-6

function coarser({ nx, ny, dxUm, dyUm }: FieldGrid, by: number): FieldGrid {
  return centredGrid(nx / by, ny / by, by * dxUm, by * dyUm)
}

/** How many times coarser than the first grid, which resolves what hardly couples, windows are found: 1 or 2. */
function coarsening(spec: FieldJointSpec, joint: GaussianJoint): number {
  const { pair, jointOn } = knownPair(spec)
  const grid = firstGrid(pair, [joint])
  if (Math.min(grid.nx, grid.ny) < 2 * LEAST_POINTS) return 1
  const lossOn = (by: number) => lossDb(jointOn(pair, coarser(grid, by)).efficiency(joint))
  return Math.abs(lossOn(2) - lossOn(1)) < COARSE_DB ? 2 : 1
}

/** The loss along one axis, each place computed once: the search for every window goes the same way out. */
function remembered(axis: MisalignmentAxis, lossOf: LossOf): LossOf {
  const known = new Map<number, number>()
  return (joint) => {
    const at = joint[axis]
    const found = known.get(at) ?? lossOf(joint)
    known.set(at, found)
    return found
  }
}

/** Loss on one grid alone: doubling each of a thousand poses would take minutes, and so would the first grid for every tilt. */
function quickLoss(spec: FieldJointSpec, by: number, axis?: MisalignmentAxis): LossOf {
  const { pair, jointOn } = knownPair(spec)
  return (joint) => {
    // A roll takes a wider grid; along that axis the pose without any roll uses it too, so that losses compare.
    const rollRad = axis === 'rollRad' && joint.rollRad === 0 ? Number.MIN_VALUE : joint.rollRad
    const grid = coarser(firstGrid(pair, [{ ...joint, rollRad }]), by)
    const efficiency = jointOn(pair, grid).efficiency(joint)
    return Math.min(MAP_CEILING_DB, lossDb(Math.max(efficiency, Number.MIN_VALUE)))
  }
}

/** The slowest axis is in the outer loop: a tilt or a roll needs a new transform, the others do not. */
const COSTLY: ReadonlySet<MisalignmentAxis> = new Set(['tiltXRad', 'tiltYRad', 'rollRad'])

function positions([from, to]: readonly [number, number], count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
}

function finished(
  { joint, x, y }: FieldToleranceRequest,
  xs: Float64Array,
  ys: Float64Array,
  rowsDb: readonly Float64Array[],
  hereDb: number,
): LossMap {
  const leastDb = rowsDb.reduce((least, row) => row.reduce((a, b) => Math.min(a, b), least), MAP_CEILING_DB)
  return { x: xs, y: ys, rowsDb, atX: joint[x], atY: joint[y], hereDb, leastDb }
}

/** Any two axes, point by point. */
function* pointMap(
  request: FieldToleranceRequest,
  lossOf: LossOf,
  hereDb: number,
): Generator<number, LossMap, void> {
  const { joint, x, y } = request
  const xs = positions(axisRange(joint, x), MAP_POINTS)
  const ys = positions(axisRange(joint, y), MAP_POINTS)
  const rowsDb = Array.from(ys, () => new Float64Array(xs.length))
  const xOutside = COSTLY.has(x) && !COSTLY.has(y)
  const [outer, inner] = xOutside ? [xs, ys] : [ys, xs]
  for (let a = 0; a < outer.length; a++) {
    for (let b = 0; b < inner.length; b++) {
      const [i, j] = xOutside ? [a, b] : [b, a]
      const row = rowsDb[j]
      if (row !== undefined) row[i] = lossOf({ ...joint, [x]: xs[i], [y]: ys[j] })
    }
    yield CURVE_DONE + ((1 - CURVE_DONE) * (a + 1)) / outer.length
  }
  return finished(request, xs, ys, rowsDb, hereDb)
}

/** The joint's correlation over all offsets at its gap, tilts and roll. */
function fieldOffsetMap(spec: FieldJointSpec, pose: FieldPose): OffsetMap {
  const { pair, jointOn } = knownPair(spec)
  const { slopePerUm } = jointOn(pair, firstGrid(pair, [pose]))
  const grid = fieldMapGrid(pair, pose)
  const started = sampleProfile(pair.emitter, grid, spec, {
    rollRad: pose.rollRad,
    waveXPerUm: slopePerUm(pose.tiltXRad),
    waveYPerUm: slopePerUm(pose.tiltYRad),
  })
  const arrived = pose.gapUm === 0 ? started : propagateField(started, pose.gapUm, spec.propagation)
  const receiver = sampleProfile(pair.receiver, grid, spec)
  const map = offsetMap(arrived, receiver)
  // Samples of a mode with walls hold a little more or less power than the mode does.
  const held = fieldPower(receiver) / (pair.receiver.plane?.powerUm2 ?? fieldPower(receiver))
  const kept = ((pair.powerShare ?? 1) * held * fieldPower(arrived)) / fieldPower(started)
  return { ...map, efficiency: map.efficiency.map((value) => value * kept) }
}

/** Both offsets at once, cut out of the correlation. */
function correlationMap(request: FieldToleranceRequest, hereDb: number): LossMap {
  const { spec, joint, x, y } = request
  const map = fieldOffsetMap(spec, joint)
  const along = (axis: MisalignmentAxis, n: number, from: number, step: number) => {
    const [least, most] = axisRange(joint, axis)
    const first = Math.max(0, Math.ceil((least - from) / step))
    const last = Math.min(n - 1, Math.floor((most - from) / step))
    const count = Math.max(2, last - first + 1)
    return { first, xPositions: Float64Array.from({ length: count }, (_, i) => from + (first + i) * step) }
  }
  const alongX = along('offsetXUm', map.nx, map.x0Um, map.dxUm)
  const alongY = along('offsetYUm', map.ny, map.y0Um, map.dyUm)
  const at = (ix: number, iy: number) =>
    Math.min(MAP_CEILING_DB, lossDb(Math.max(map.efficiency[iy * map.nx + ix] as number, Number.MIN_VALUE)))
  const [across, up] = x === 'offsetXUm' ? [alongX, alongY] : [alongY, alongX]
  const rowsDb = Array.from(up.xPositions, (_, j) =>
    Float64Array.from(across.xPositions, (_value, i) =>
      x === 'offsetXUm' ? at(alongX.first + i, alongY.first + j) : at(alongX.first + j, alongY.first + i),
    ),
  )
  return finished({ ...request, x, y }, across.xPositions, up.xPositions, rowsDb, hereDb)
}

const isOffset = (axis: MisalignmentAxis) => axis === 'offsetXUm' || axis === 'offsetYUm'

/** The joint with its tilts turned about the receiver's face: the beam still meets it where it did. */
const aboutReceiver =
  (from: GaussianJoint, lossOf: LossOf): LossOf =>
  (joint) =>
    lossOf({
      ...joint,
      offsetXUm: joint.offsetXUm + joint.gapUm * (from.tiltXRad - joint.tiltXRad),
      offsetYUm: joint.offsetYUm + joint.gapUm * (from.tiltYRad - joint.tiltYRad),
    })

const isTilt = (axis: MisalignmentAxis) => axis === 'tiltXRad' || axis === 'tiltYRad'

/** Windows of all axes by the fields alone. Throws InputError for a bad joint. */
export function* fieldWindowSteps(
  spec: FieldJointSpec,
  joint: GaussianJoint,
  turn: TiltCentre = 'emitter',
): Steps<readonly AxisWindow[]> {
  const by = coarsening(spec, joint)
  const windows: AxisWindow[] = []
  for (const [at, axis] of MISALIGNMENT_AXES.entries()) {
    const lossOf = quickLoss(spec, by, axis)
    const turned = turn === 'receiver' && isTilt(axis) ? aboutReceiver(joint, lossOf) : lossOf
    windows.push(axisWindow(joint, axis, remembered(axis, turned), WINDOW_TOLERANCE))
    yield (at + 1) / MISALIGNMENT_AXES.length
  }
  return windows
}

/** Windows of all axes, the curve along x, the map of x and y. Throws InputError for a bad joint. */
export function* fieldToleranceSteps(
  request: FieldToleranceRequest,
): Generator<number, FieldTolerance, void> {
  const { spec, joint, x, y } = request
  const { efficiency, error } = jointByField(spec, joint)
  const lossOf = quickLoss(spec, 1, x)
  const search = fieldWindowSteps(spec, joint)
  let step = search.next()
  for (; !step.done; step = search.next()) yield WINDOWS_DONE * step.value
  const windows = step.value
  const xPositions = positions(axisRange(joint, x), CURVE_POINTS)
  const lossesDb = new Float64Array(CURVE_POINTS)
  for (let i = 0; i < CURVE_POINTS; i++) {
    lossesDb[i] = lossOf({ ...joint, [x]: xPositions[i] })
    if (i % 10 === 9) yield WINDOWS_DONE + ((CURVE_DONE - WINDOWS_DONE) * (i + 1)) / CURVE_POINTS
  }
  const hereDb = lossDb(efficiency)
  const map =
    isOffset(x) && isOffset(y) ? correlationMap(request, hereDb) : yield* pointMap(request, lossOf, hereDb)
  return {
    axes: { x, y },
    joint,
    windows,
    curve: { axis: x, positions: xPositions, lossesDb },
    map,
    errorDb: (10 / Math.LN10) * (error / efficiency),
  }
}
