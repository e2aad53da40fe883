// A channel of an array as its alignment sees it, and what the station can move.

/** One channel as the array sees it, um and dB: loss(u) = leastDb + (u - best)' A (u - best), u its displacement. */
export interface BlockChannel {
  /** Place along the array, from its middle. */
  readonly alongUm: number
  readonly leastDb: number
  readonly a11: number
  readonly a12: number
  readonly a22: number
  /** Displacement of the array that would bring this channel to its optimum. */
  readonly bestXUm: number
  readonly bestYUm: number
}

export interface BlockPlace {
  readonly xUm: number
  readonly yUm: number
  readonly rollRad: number
}

/** What the station moves to find the best place; the rest stays as it was put. */
export interface BlockFreedom {
  readonly x: boolean
  readonly y: boolean
  readonly roll: boolean
}

/** Loss of a channel with the array at a place, dB. */
export function channelLossDb(channel: BlockChannel, { xUm, yUm, rollRad }: BlockPlace): number {
  const x = xUm - channel.bestXUm
  const y = yUm + channel.alongUm * rollRad - channel.bestYUm
  return channel.leastDb + channel.a11 * x * x + 2 * channel.a12 * x * y + channel.a22 * y * y
}
