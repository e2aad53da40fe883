// A channel of an array as the alignment treats it, and the degrees of freedom of the station.

/** The loss of one channel against the displacement u of the array, um and dB: loss(u) = leastDb + (u - best)' A (u - best). */
export interface BlockChannel {
  /** Position along the array, from its middle. */
  readonly alongUm: number
  readonly leastDb: number
  readonly a11: number
  readonly a12: number
  readonly a22: number
  /** Displacement of the array that would bring this channel to its optimum. */
  readonly bestXUm: number
  readonly bestYUm: number
}

export interface BlockPosition {
  readonly xUm: number
  readonly yUm: number
  readonly rollRad: number
}

/** Degrees of freedom that the station searches; the others stay as placed. */
export interface BlockFreedom {
  readonly x: boolean
  readonly y: boolean
  readonly roll: boolean
}

/** Loss of a channel with the array at a position, dB. */
export function channelLossDb(channel: BlockChannel, { xUm, yUm, rollRad }: BlockPosition): number {
  const x = xUm - channel.bestXUm
  const y = yUm + channel.alongUm * rollRad - channel.bestYUm
  return channel.leastDb + channel.a11 * x * x + 2 * channel.a12 * x * y + channel.a22 * y * y
}
