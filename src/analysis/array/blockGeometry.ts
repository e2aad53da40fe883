// Positions of the fibres of an array relative to their waveguides, and how much roll an array may have.
//   along = (i - (N - 1) / 2) pitch,  y = along sin(roll),  gap rises by along tan(tilt x)
// Source: rigid rotation of a straight row; the edge moves by (N - 1) / 2 * pitch * sin(roll).

import type { PoseForm } from '../path/vector/elementModels'

interface BlockErrors {
  readonly nearPitchUm: number
  readonly farPitchUm: number
  readonly rollRad: number
  readonly tiltXRad: number
  /** Height of the outer cores over the middle one. */
  readonly bowUm: number
}

interface ChannelDisplacement {
  /** Along the near row from its middle. */
  readonly alongUm: number
  readonly xUm: number
  readonly yUm: number
  /** How much wider this channel's gap is than the middle's. */
  readonly zUm: number
}

/** Displacement of `channel` (0 to `channels` - 1) of the near row from its place in the far row, middles on each other. */
export function channelDisplacement(
  channel: number,
  channels: number,
  errors: BlockErrors,
): ChannelDisplacement {
  const position = channel - (channels - 1) / 2
  const alongUm = position * errors.nearPitchUm
  const outer = channels > 1 ? position / ((channels - 1) / 2) : 0
  return {
    alongUm,
    xUm: alongUm * Math.cos(errors.rollRad) - position * errors.farPitchUm,
    yUm: alongUm * Math.sin(errors.rollRad) + errors.bowUm * outer * outer,
    zUm: alongUm * Math.tan(errors.tiltXRad),
  }
}

/**
 * Roll that causes an excess loss of `excessDb` at the outer channels, rad; null for a single channel or where no roll does. The form is a
 * channel's own (path/vector/elementModels.ts), its offset along y the free one.
 */
export function rollForLossRad(
  { curvatureDb: h, slopeDb }: PoseForm,
  channels: number,
  pitchUm: number,
  excessDb: number,
): number | null {
  if (channels < 2) return null
  // a d^2 + 2 b d = excess; the nearer of the two sides counts.
  const a = h[5] ?? 1
  const b = slopeDb[1] ?? 0
  const reachUm = (Math.sqrt(b * b + a * excessDb) - Math.abs(b)) / a
  const edgeUm = ((channels - 1) / 2) * pitchUm
  return reachUm < edgeUm ? Math.asin(reachUm / edgeUm) : null
}
