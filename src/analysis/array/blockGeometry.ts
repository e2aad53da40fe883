// Where the fibres of a block stand against their waveguides, and how much roll an array may have.
//   along = (i - (N - 1) / 2) pitch,  y = along sin(roll),  gap rises by along tan(tilt x)
// Source: rigid rotation of a straight row; the edge moves by (N - 1) / 2 * pitch * sin(roll).

import { type GaussianJoint, offsetForLoss } from '../../optics/index'

export interface BlockErrors {
  readonly fibrePitchUm: number
  readonly chipPitchUm: number
  readonly rollRad: number
  readonly tiltXRad: number
  /** Height of the outer cores over the middle one. */
  readonly bowUm: number
}

export interface ChannelDisplacement {
  /** Along the fibre block from its middle. */
  readonly alongUm: number
  readonly xUm: number
  readonly yUm: number
  /** How much wider this channel's gap is than the middle's. */
  readonly zUm: number
}

/** Displacement of fibre `channel` (0 to `channels` - 1) from its waveguide with the block's middle on the chip's. */
export function channelDisplacement(
  channel: number,
  channels: number,
  errors: BlockErrors,
): ChannelDisplacement {
  const place = channel - (channels - 1) / 2
  const alongUm = place * errors.fibrePitchUm
  const outer = channels > 1 ? place / ((channels - 1) / 2) : 0
  return {
    alongUm,
    xUm: alongUm * Math.cos(errors.rollRad) - place * errors.chipPitchUm,
    yUm: alongUm * Math.sin(errors.rollRad) + errors.bowUm * outer * outer,
    zUm: alongUm * Math.tan(errors.tiltXRad),
  }
}

/**
 * Roll that costs the outer channels `excessDb`, rad; null for a single channel or where no roll does. The joint is a
 * channel's own, its offset along y the free one.
 */
export function rollForLossRad(
  joint: GaussianJoint,
  channels: number,
  pitchUm: number,
  excessDb: number,
): number | null {
  if (channels < 2) return null
  const { lowerUm, upperUm } = offsetForLoss({ ...joint, offsetYUm: 0 }, 'y', excessDb)
  const reachUm = Math.min(Math.abs(upperUm), Math.abs(lowerUm))
  const edgeUm = ((channels - 1) / 2) * pitchUm
  return reachUm < edgeUm ? Math.asin(reachUm / edgeUm) : null
}
