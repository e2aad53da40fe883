// Power coupled between any two modes at a joint, by sampled fields.
//   efficiency = share |sum E(k) H(k) exp(-i k.d) conj R(k)|^2 / (sum |E|^2 sum |R|^2)
// E is the transform of the emitter's samples, tilted and rolled about its own centre, R that of the receiver's,
// d the offset and H the transfer of the gap: exp(-i z sqrt(k^2 - kx^2 - ky^2)), evanescent waves dying away, or the
// paraxial exp(i z (kx^2 + ky^2) / (2 k)), and share what both samples hold of their modes' power. Axes and signs are those of GaussianJoint.
// Source: angular spectrum, J. W. Goodman, Introduction to Fourier Optics (1996), sect. 3.10 and 4.2 (from memory).
// Scalar and without reflections; errors are estimated by doubling the grid.

import { fftPlan } from '../../numerics/fft/fft2'
import { doubledGrid, type FieldGrid } from './fieldGrid'
import { type FieldPair, type FieldPose, requirePose, tiltWaves } from './fieldPose'
import { firstGrid } from './jointGrid'
import { profileWaves } from './profileWaves'
import { axialShare, sharedWaves } from './sharedWaves'

/** An efficiency with its numerical error, from the last doubling of the grid. */
export interface FieldEfficiency {
  readonly efficiency: number
  readonly error: number
  readonly grid: FieldGrid
}

/** The joint on one grid: an efficiency for any pose that the grid was made for. */
export interface FieldJoint {
  readonly grid: FieldGrid
  readonly efficiency: (pose: FieldPose) => number
  /** Transverse wave number, 1/um, that a tilt in rad adds to the emitter's waves. */
  readonly slopePerUm: (tiltRad: number) => number
}

/** Error of the efficiency at which doubling ends. */
export const FIELD_ERROR = 1e-5
/** Doubling ends at this many points a side whatever the error; the error is then reported. */
const GRID_LARGEST = 512
/** The joint on a grid. Transforms are kept while tilt and roll stay as they are. */
export function fieldJointOn(pair: FieldPair, grid: FieldGrid): FieldJoint {
  const { nx, ny } = grid
  const k = (2 * Math.PI * pair.index) / pair.wavelengthUm
  const plan = fftPlan(nx, ny)
  const receiver = profileWaves(pair.receiver, grid, plan, { xPerUm: 0, yPerUm: 0, rollRad: 0 })
  const waves = sharedWaves(plan, grid)
  const upright = (): number => {
    const emitter = profileWaves(pair.emitter, grid, plan, { xPerUm: 0, yPerUm: 0, rollRad: 0 })
    return axialShare(emitter, receiver, plan, grid, k)
  }
  const slopePerUm = tiltWaves(pair.propagation, k, upright)
  let known = ''
  return {
    grid,
    slopePerUm,
    efficiency: (pose) => {
      const rollRad = pair.emitter.plane?.isRound ? 0 : pose.rollRad
      const key = `${pose.tiltXRad} ${pose.tiltYRad} ${rollRad}`
      if (key !== known) {
        const emitter = profileWaves(pair.emitter, grid, plan, {
          xPerUm: slopePerUm(pose.tiltXRad),
          yPerUm: slopePerUm(pose.tiltYRad),
          rollRad,
        })
        const share = pair.powerShare ?? 1
        const scale = Math.sqrt(share / (emitter.squares * receiver.squares)) / (nx * ny)
        waves.take(emitter, receiver, scale)
        known = key
      }
      return Math.min(1, waves.power(k, requirePose(pose), pair.propagation))
    },
  }
}

/** The last joints on their grids, with the serialised joint and the grid as key: drags request the same ones again. */
export type JointMemo = (pair: FieldPair, grid: FieldGrid) => FieldJoint

/**
 * Efficiency of one pose on a grid that is doubled until two grids agree to `error`, or the largest is reached; the
 * result is that of the finer one. It begins with the grid of the pose, or with `first`, which must hold the pose. Throws
 * InputError for impossible poses, media or modes.
 */
export function fieldEfficiency(
  pair: FieldPair,
  pose: FieldPose,
  error: number = FIELD_ERROR,
  jointOn: JointMemo = fieldJointOn,
  first?: FieldGrid,
): FieldEfficiency {
  requirePose(pose)
  let grid = first ?? firstGrid(pair, [pose])
  let coarse = jointOn(pair, grid).efficiency(pose)
  for (;;) {
    grid = doubledGrid(grid)
    const fine = jointOn(pair, grid).efficiency(pose)
    const difference = Math.abs(fine - coarse)
    if (difference <= error || 2 * Math.max(grid.nx, grid.ny) > GRID_LARGEST) {
      return { efficiency: fine, error: difference, grid }
    }
    coarse = fine
  }
}
