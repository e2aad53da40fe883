// Real less Gaussian loss of a joint at one set of coordinates, summed over the plane waves of its fields on one grid.

import {
  bandLimitedJoint,
  type FieldGrid,
  type FieldJointSpec,
  type FieldPair,
  fieldPairOf,
  firstGrid,
  type GaussianJoint,
  jointLossDb,
  lossDb,
} from '../../../optics/index'
import { gaussianAt, type JointRegion, scaledSpec } from './jointAxes'

export interface Difference {
  /** Real less Gaussian loss, dB. */
  readonly differenceDb: number
  readonly fieldDb: number
}

export type ExactDifference = (at: ArrayLike<number>) => Difference

/** Losses beyond are not resolved: rounding of the fields begins to show. */
const DARKEST_DB = 90

/** Poses at the ends of the region: the grid holds the modes in all of them. */
function extremePoses(nominal: GaussianJoint, { from, to }: JointRegion): readonly GaussianJoint[] {
  return [from, to].map((end) => gaussianAt(nominal, end))
}

/**
 * The evaluator. The transforms are kept while sizes, tilts and roll stay as they are, so ask for gaps and offsets in the inner
 * loop. The coarsest grid is used whose changes are within `coarseDb`. Throws InputError where no grid holds the joint.
 */
export function exactDifference(
  spec: FieldJointSpec,
  nominal: GaussianJoint,
  region: JointRegion,
  coarseDb = COARSE_DB,
): { readonly of: ExactDifference; readonly grid: FieldGrid; readonly by: number } {
  const nominalPair = fieldPairOf(spec)
  const widest = fieldPairOf(scaledSpec(spec, region.to))
  const finest = fieldPairOf(scaledSpec(spec, region.from))
  const poses = extremePoses(nominal, region)
  // The widest modes set the window, the narrowest the step.
  const span = (wide: FieldPair['emitter'], fine: FieldPair['emitter']) => ({
    ...wide,
    stepXUm: fine.stepXUm,
    stepYUm: fine.stepYUm,
  })
  const grid = firstGrid(
    {
      ...nominalPair,
      emitter: span(widest.emitter, finest.emitter),
      receiver: span(widest.receiver, finest.receiver),
    },
    poses,
  )
  const on = (by: number) => evaluatorOn(spec, nominal, nominalPair, grid, by)
  const fine = on(1)
  const looks = LOOKS.map((share) => region.from.map((low, i) => low + share * ((region.to[i] ?? low) - low)))
  // What a coarse grid adds everywhere does not matter: the difference is tied to its exact value at the nominal pose.
  const changes = (of: ExactDifference) => {
    const [first = 0, ...rest] = looks.map((at) => of(at).differenceDb)
    return rest.map((value) => value - first)
  }
  const wanted = changes(fine)
  for (const by of [8, 4, 2]) {
    if (Math.min(grid.nx, grid.ny) / by < LEAST_POINTS) continue
    const quick = on(by)
    if (changes(quick).every((value, i) => Math.abs(value - (wanted[i] as number)) < coarseDb)) {
      return { of: quick, grid, by }
    }
  }
  return { of: fine, grid, by: 1 }
}

/** Where grids are compared: shares of the way across the region, the middle first. */
const LOOKS = [0.5, 0.25, 0.85]
const COARSE_DB = 0.002
const LEAST_POINTS = 16

function evaluatorOn(
  spec: FieldJointSpec,
  nominal: GaussianJoint,
  nominalPair: FieldPair,
  grid: FieldGrid,
  by: number,
): ExactDifference {
  let known = '1 1 1 1'
  let joint = bandLimitedJoint(nominalPair, grid, by)
  return (at) => {
    const key = `${at[6]} ${at[7]} ${at[8]} ${at[9]}`
    const moved = gaussianAt(nominal, at)
    if (key !== known) {
      joint = bandLimitedJoint(fieldPairOf(scaledSpec(spec, at)), grid, by)
      known = key
    }
    const efficiency = joint(moved, moved.wavelengthUm)
    const fieldDb = Math.min(DARKEST_DB, lossDb(Math.max(efficiency, Number.MIN_VALUE)))
    return { differenceDb: fieldDb - Math.min(DARKEST_DB + 30, jointLossDb(moved)), fieldDb }
  }
}
