// Excess loss of misalignment through the real lenses of a relay: windows, and losses over lines and planes of displacements. In steps, because
// every pose is traced: each step yields the fraction done.

import { type Steps, within } from '../../numerics/steps'
import { axisSample, type GaussianJoint, MISALIGNMENT_AXES, type MisalignmentAxis } from '../../optics/index'
import { type AxisWindow, axisWindow, type LossCurve, type LossOf } from '../tolerance/toleranceCurve'
import { axisSamples, type LossMap, MAP_CEILING_DB, mapOf } from '../tolerance/toleranceMap'
import { chipJoint, seenJoint } from '../tolerance/viewWindows'
import type { Displacements } from './fit/knownFits'
import type { RelayFields } from './fit/relayAxes'
import { mirrored } from './mirroredPoses'
import { relayHereDb, relayLossOf } from './relayLoss'

export interface RelayToleranceRequest {
  readonly lenses: RelayFields
  /** The paraxial joint: its pose, and how far the axes reach. */
  readonly joint: GaussianJoint
  readonly x: MisalignmentAxis
  readonly y: MisalignmentAxis
}

export interface RelayTolerance {
  /** What was asked. */
  readonly axes: { readonly x: MisalignmentAxis; readonly y: MisalignmentAxis }
  readonly windows: readonly AxisWindow[]
  readonly curve: LossCurve
  readonly map: LossMap
}

const CURVE_POINTS = 81
const MAP_POINTS = 41
/** Shares of the work, roughly. */
const WINDOWS_DONE = 0.2
const CURVE_DONE = 0.25
/** Relative width of the ends of windows. */
const WINDOW_TOLERANCE = 1e-6
/** Poses between two reports. */
const A_STEP = 20

/** The loss of each pose, traced once, mirrored poses included. */
function lossesOf(lenses: RelayFields, joint: GaussianJoint): LossOf {
  const traced = relayLossOf(lenses, joint)
  return mirrored(lenses, joint, (pose) => Math.min(MAP_CEILING_DB, traced(pose)))
}

/**
 * Windows of all axes, in the order of MISALIGNMENT_AXES: of the image about the facet, as `viewWindows` has those of the paraxial
 * image. Throws InputError for a bad joint.
 */
export function* relayWindowSteps(lenses: RelayFields, joint: GaussianJoint): Steps<readonly AxisWindow[]> {
  const atFacet = lossesOf(lenses, chipJoint(joint, 'offsetXUm'))
  const along = lossesOf(lenses, joint)
  const windows: AxisWindow[] = []
  for (const [at, axis] of MISALIGNMENT_AXES.entries()) {
    const lossOf = axis === 'gapUm' ? along : atFacet
    windows.push(axisWindow(chipJoint(joint, axis), axis, lossOf, WINDOW_TOLERANCE))
    yield (at + 1) / MISALIGNMENT_AXES.length
  }
  return windows
}

/** Losses in dB over all displacements, one after the other; planes row by row. Throws InputError for a bad joint. */
export function* relayLossSteps(
  lenses: RelayFields,
  joint: GaussianJoint,
  over: readonly Displacements[],
): Steps<readonly number[]> {
  const lossOf = lossesOf(lenses, joint)
  const poses = over.flatMap(([x, y]) => {
    const row = Array.from({ length: x.count }, (_, i) => ({ [x.axis]: axisSample(x, i) }))
    if (y === undefined) return row
    return Array.from({ length: y.count }, (_, j) =>
      row.map((at) => ({ ...at, [y.axis]: axisSample(y, j) })),
    ).flat()
  })
  const losses: number[] = []
  for (const pose of poses) {
    losses.push(lossOf({ ...joint, ...pose }))
    if (losses.length % A_STEP === 0) yield losses.length / poses.length
  }
  return losses
}

/** Windows of all axes, the curve along x, the map of x and y. Throws InputError for a bad joint. */
export function* relayToleranceSteps({ lenses, joint, x, y }: RelayToleranceRequest): Steps<RelayTolerance> {
  const windows = yield* within(0, WINDOWS_DONE, relayWindowSteps(lenses, joint))
  const image = { joint, isImage: true }
  const onCurve = seenJoint(image, x)
  const line = axisSamples(onCurve, x, CURVE_POINTS)
  const curveDb = yield* within(WINDOWS_DONE, CURVE_DONE, relayLossSteps(lenses, onCurve, [[line]]))
  const onMap = seenJoint(image, x, y)
  const [across, up] = [axisSamples(onMap, x, MAP_POINTS), axisSamples(onMap, y, MAP_POINTS)]
  const mapDb = yield* within(CURVE_DONE, 1, relayLossSteps(lenses, onMap, [[across, up]]))
  return {
    axes: { x, y },
    windows,
    curve: {
      axis: x,
      positions: Float64Array.from(curveDb, (_, i) => axisSample(line, i)),
      lossesDb: Float64Array.from(curveDb),
    },
    map: mapOf(onMap, across, up, Float64Array.from(mapDb), relayHereDb(lenses, onMap)),
  }
}
