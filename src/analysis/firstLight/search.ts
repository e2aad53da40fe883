// Whether first light can be found: the displacement on each axis at which the detector sees nothing, the largest
// spacing of search points, and the points and time of a raster and a spiral.
// A point of the search sees light if the light axis lies within an ellipse of the capture ranges about it. Points sqrt(2) ranges
// apart cover the area: the middle of four of them lies on all four ellipses.

import { InputError } from '../../numerics/inputError'
import { normalProbability } from '../../numerics/normal'
import { finish, type Steps } from '../../numerics/steps'
import { type GaussianJoint, jointLossDb, MISALIGNMENT_AXES } from '../../optics/index'
import type { LossOf } from '../tolerance/toleranceCurve'
import { type CaptureArea, type CaptureRange, captureArea, captureRange, lateralOptimum } from './capture'

export interface StationNumbers {
  readonly launchDbm: number
  /** Lowest power that is distinguished from the dark level. */
  readonly detectorFloorDbm: number
  /** Pre-alignment accuracy, ± in each direction (two standard deviations). */
  readonly lateralUm: number
  readonly axialUm: number
  readonly tiltRad: number
  /** Time of one search point, move and reading. */
  readonly secondsPerPoint: number
}

/** A pose at its lateral optimum, with its power margin. */
interface SearchPose {
  readonly pose: GaussianJoint
  readonly reserveDb: number
}

export interface SearchPlan {
  /** Launch power less detector floor and insertion loss, dB. */
  readonly reserveDb: number
  /** The smallest with gap and tilts anywhere within their pre-alignment limits: what is left for the lateral search. */
  readonly searchReserveDb: number
  /**
   * The pose within those limits about which the fewest search points see light, at its lateral optimum, with its own power margin, dB;
   * null where one of them sees nothing even on axis.
   */
  readonly narrowest: SearchPose | null
  /** Each axis alone, the others at their working point. */
  readonly ranges: readonly CaptureRange[]
  /** Null where nothing is seen even on axis. */
  readonly search: LateralSearch | null
}

export interface LateralSearch extends CaptureArea {
  readonly stepXUm: number
  readonly stepYUm: number
  /** Points of the raster along each axis. */
  readonly countX: number
  readonly countY: number
  readonly raster: PointCount
  readonly spiral: PointCount
}

/** The last point that may be needed, and the mean number for normally distributed positions. */
interface PointCount {
  readonly most: number
  readonly mean: number
}

/** Finer searches than this are not listed. */
const MOST_POINTS = 1_000_000

/** Shares of the work: the lateral optima of the poses, then the areas about them. */
const POSES_DONE = 0.35
const AREA_DONE = 0.6

/**
 * The plan for a joint with all other losses of the path, dB, by the loss of its poses; no gap is below `leastGapUm`, where glass
 * touches chip. InputError for accuracies that are not
 * above 0, and for searches of more than a million points.
 */
export function* searchPlanSteps(
  joint: GaussianJoint,
  otherLossDb: number,
  station: StationNumbers,
  lossOf: LossOf,
  leastGapUm = 0,
): Steps<SearchPlan> {
  for (const name of ['lateralUm', 'axialUm', 'tiltRad', 'secondsPerPoint'] as const) {
    if (!(station[name] > 0)) throw new InputError(name, station[name], 'above 0')
  }
  const budgetDb = station.launchDbm - station.detectorFloorDbm - otherLossDb
  const reserveDb = budgetDb - lossOf(joint)
  // Wherever the gap is within its limits: near the chip a spot is small, far from it weak. Tilts away from where the joint works.
  const poses = [-1, 0, 1].map((axial) =>
    [-1, 1].map((tilt) => ({
      ...joint,
      gapUm: Math.max(leastGapUm, joint.gapUm + axial * station.axialUm),
      tiltXRad: joint.tiltXRad + tilt * station.tiltRad,
      tiltYRad: joint.tiltYRad + tilt * station.tiltRad,
    })),
  )
  const settled: SearchPose[] = []
  for (const [i, tilted] of poses.entries()) {
    const optima = tilted.map((each): SearchPose => {
      const pose = lateralOptimum(each, lossOf)
      return { pose, reserveDb: budgetDb - lossOf(pose) }
    })
    // Tilt moves the lateral optimum, but hardly the size of the area about it: of either sense the one that loses more.
    settled.push(optima.reduce((worse, each) => (each.reserveDb < worse.reserveDb ? each : worse)))
    yield (POSES_DONE * (i + 1)) / poses.length
  }
  const searchReserveDb = Math.min(...settled.map((each) => each.reserveDb))
  const areas: (CaptureArea & SearchPose)[] = []
  for (const [i, each] of (searchReserveDb > 0 ? settled : []).entries()) {
    areas.push({ ...each, ...captureArea(each.pose, each.reserveDb, lossOf) })
    yield POSES_DONE + ((AREA_DONE - POSES_DONE) * (i + 1)) / settled.length
  }
  const [narrowest = null] = areas.toSorted(
    (a, b) => a.captureXUm * a.captureYUm - b.captureXUm * b.captureYUm,
  )
  const least = (axis: keyof CaptureArea) => Math.min(...areas.map((each) => each[axis]))
  const search =
    narrowest === null
      ? null
      : lateralSearch({ captureXUm: least('captureXUm'), captureYUm: least('captureYUm') }, station.lateralUm)
  yield AREA_DONE
  const ranges: CaptureRange[] = []
  if (reserveDb > 0) {
    for (const [i, axis] of MISALIGNMENT_AXES.entries()) {
      const range = captureRange(joint, axis, reserveDb, lossOf)
      const touches = axis === 'gapUm' && range.below !== null && joint.gapUm - range.below < leastGapUm
      ranges.push(touches ? { ...range, below: null } : range)
      yield AREA_DONE + ((1 - AREA_DONE) * (i + 1)) / MISALIGNMENT_AXES.length
    }
  }
  return { reserveDb, searchReserveDb, narrowest, ranges, search }
}

/** The same at once, by Gaussians. */
export function searchPlan(
  joint: GaussianJoint,
  otherLossDb: number,
  station: StationNumbers,
  leastGapUm = 0,
): SearchPlan {
  return finish(searchPlanSteps(joint, otherLossDb, station, jointLossDb, leastGapUm))
}

function lateralSearch(area: CaptureArea, lateralUm: number): LateralSearch {
  const countOf = (captureUm: number) => Math.max(1, Math.ceil((Math.SQRT2 * lateralUm) / captureUm))
  const [countX, countY] = [countOf(area.captureXUm), countOf(area.captureYUm)]
  if (!(countX * countY <= MOST_POINTS))
    throw new InputError('the search', `${countX} × ${countY} points`, `at most ${MOST_POINTS} points`)
  // As many points as are needed, evenly over the area.
  const [stepXUm, stepYUm] = [(2 * lateralUm) / countX, (2 * lateralUm) / countY]
  const cells = cellShares(countX, countY)
  const bySpiral = cells
    .map(({ share, x, y }) => ({ share, far: Math.hypot(x * stepXUm, y * stepYUm) }))
    .sort((a, b) => a.far - b.far)
  return {
    ...area,
    stepXUm,
    stepYUm,
    countX,
    countY,
    raster: { most: cells.length, mean: meanNumber(cells) },
    spiral: { most: cells.length, mean: meanNumber(bySpiral) },
  }
}

/** Probability of each cell of the raster, row by row, and its place from the middle in steps; ± the area is two sigma. */
function cellShares(countX: number, countY: number) {
  const shares = (count: number) =>
    Array.from({ length: count }, (_, i) => {
      const edge = (k: number) => normalProbability((4 * k) / count - 2)
      return edge(i + 1) - edge(i)
    })
  const [alongX, alongY] = [shares(countX), shares(countY)]
  return alongY.flatMap((shareY, j) =>
    alongX.map((shareX, i) => ({
      share: shareX * shareY,
      x: i - (countX - 1) / 2,
      y: j - (countY - 1) / 2,
    })),
  )
}

function meanNumber(cells: readonly { readonly share: number }[]): number {
  let [total, sum] = [0, 0]
  cells.forEach(({ share }, i) => {
    total += share
    sum += share * (i + 1)
  })
  return sum / total
}

/** Roll within which the outermost channel of a row sees light while the middle one is on axis, rad; null for one channel. */
export function rollCaptureRad(captureYUm: number, channels: number, pitchUm: number): number | null {
  const lever = ((channels - 1) / 2) * pitchUm
  return lever > 0 ? Math.asin(Math.min(1, captureYUm / lever)) : null
}
