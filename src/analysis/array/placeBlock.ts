// Where a block of fibres is held best: its position across the chip, and its roll if the station turns it too.
// Each channel's loss is a quadratic form about its own best point, so
//   the sum of powers rises with every weighted mean of those points, weights being the powers themselves
//   (exp(-q) lies above its tangent in q, so each step is an ascent: D. R. Hunter and K. Lange, Am. Stat. 58 (2004) 30);
//   the worst channel is reached by the smooth maximum ln(sum exp(b L)) / b, convex, by Newton's method with rising b.

import type { ArrayAim } from '../../model/fibreArray'

/** One channel as the block sees it, um and dB: loss(u) = leastDb + (u - best)' A (u - best), u its displacement. */
export interface BlockChannel {
  /** Place along the block, from its middle. */
  readonly alongUm: number
  readonly leastDb: number
  readonly a11: number
  readonly a12: number
  readonly a22: number
  /** Displacement of the block that would bring this channel to its best. */
  readonly bestXUm: number
  readonly bestYUm: number
}

export interface BlockPlace {
  readonly xUm: number
  readonly yUm: number
  readonly rollRad: number
}

const MOST_STEPS = 200
const SETTLED_UM = 1e-6
const RIDGE = 1e-9
/** Sharpness of the smooth maximum, per dB: the last one is within ln(64) / 400 = 0.01 dB of the worst channel. */
const SHARPNESS = [1, 8, 60, 400] as const

/** Loss of a channel with the block at a place, dB. */
export function channelLossDb(channel: BlockChannel, { xUm, yUm, rollRad }: BlockPlace): number {
  const x = xUm - channel.bestXUm
  const y = yUm + channel.alongUm * rollRad - channel.bestYUm
  return channel.leastDb + channel.a11 * x * x + 2 * channel.a12 * x * y + channel.a22 * y * y
}

/** The 3 x 3 system of x, y and roll times the half length; without roll its third row is the unit row. */
interface System {
  readonly m: Float64Array
  readonly r: Float64Array
}

function solve({ m, r }: System): void {
  for (let k = 0; k < 3; k++) {
    const pivot = m[4 * k] ?? 1
    for (let i = 0; i < 3; i++) {
      if (i === k) continue
      const factor = (m[3 * i + k] ?? 0) / pivot
      for (let j = k; j < 3; j++) m[3 * i + j] = (m[3 * i + j] ?? 0) - factor * (m[3 * k + j] ?? 0)
      r[i] = (r[i] ?? 0) - factor * (r[k] ?? 0)
    }
  }
  for (let k = 0; k < 3; k++) r[k] = (r[k] ?? 0) / (m[4 * k] ?? 1)
}

/** Adds a channel's weighted curvature to the system. `lever` is its place over the half length, 0 without roll. */
function addCurvature({ m }: System, channel: BlockChannel, lever: number, weight: number): void {
  const { a11, a12, a22 } = channel
  const terms = [a11, a12, a12 * lever, a12, a22, a22 * lever, a12 * lever, a22 * lever, a22 * lever * lever]
  for (let k = 0; k < 9; k++) m[k] = (m[k] ?? 0) + weight * (terms[k] ?? 0)
}

/** Half the gradient of a channel's loss at a place, in x, y and roll. */
function halfGradient(
  channel: BlockChannel,
  place: BlockPlace,
  lever: number,
): readonly [number, number, number] {
  const x = place.xUm - channel.bestXUm
  const y = place.yUm + channel.alongUm * place.rollRad - channel.bestYUm
  const gx = channel.a11 * x + channel.a12 * y
  const gy = channel.a12 * x + channel.a22 * y
  return [gx, gy, gy * lever]
}

/** The best place of the block; `turns` lets its roll take part. At least one channel, finite curvatures above 0. */
export function placeBlock(channels: readonly BlockChannel[], aim: ArrayAim, turns: boolean): BlockPlace {
  const watched =
    aim === 'outer two' ? channels.filter((_, i) => i === 0 || i === channels.length - 1) : channels
  const halfLength = Math.max(1, ...watched.map((channel) => Math.abs(channel.alongUm)))
  const rolls = turns && watched.length > 1
  const levers = watched.map((channel) => (rolls ? channel.alongUm / halfLength : 0))
  const middle = (pick: (channel: BlockChannel) => number) =>
    watched.reduce((sum, channel) => sum + pick(channel), 0) / watched.length
  let place: BlockPlace = { xUm: middle((c) => c.bestXUm), yUm: middle((c) => c.bestYUm), rollRad: 0 }

  const moved = (from: BlockPlace, step: Float64Array, share: number): BlockPlace => ({
    xUm: from.xUm - share * (step[0] ?? 0),
    yUm: from.yUm - share * (step[1] ?? 0),
    rollRad: from.rollRad - (share * (step[2] ?? 0)) / halfLength,
  })
  /** The Newton step for weights of the channels, with the spread of their gradients where sharpness asks for it. */
  const step = (weights: Float64Array, sharpness: number): Float64Array => {
    const system: System = { m: new Float64Array(9), r: new Float64Array(3) }
    for (const [i, channel] of watched.entries()) {
      const weight = weights[i] ?? 0
      addCurvature(system, channel, levers[i] ?? 0, weight)
      for (const [k, g] of halfGradient(channel, place, levers[i] ?? 0).entries()) {
        system.r[k] = (system.r[k] ?? 0) + weight * g
      }
    }
    if (sharpness > 0) {
      for (const [i, channel] of watched.entries()) {
        const g = halfGradient(channel, place, levers[i] ?? 0)
        for (let j = 0; j < 3; j++) {
          for (let k = 0; k < 3; k++) {
            const spread = ((g[j] ?? 0) - (system.r[j] ?? 0)) * ((g[k] ?? 0) - (system.r[k] ?? 0))
            system.m[3 * j + k] = (system.m[3 * j + k] ?? 0) + 2 * sharpness * (weights[i] ?? 0) * spread
          }
        }
      }
    }
    if (!rolls) system.m[8] = 1
    // Where one channel outweighs all others, nothing says how to split y and roll: a little stiffness decides.
    const stiffness = RIDGE * ((system.m[0] ?? 0) + (system.m[4] ?? 0))
    for (let k = 0; k < 3; k++) system.m[4 * k] = (system.m[4 * k] ?? 0) + stiffness
    solve(system)
    return system.r
  }
  const size = (each: Float64Array) => Math.hypot(...each)

  if (aim !== 'worst channel') {
    for (let n = 0; n < MOST_STEPS; n++) {
      const losses = watched.map((channel) => channelLossDb(channel, place))
      const least = Math.min(...losses)
      const powers = Float64Array.from(losses, (loss) => 10 ** ((least - loss) / 10))
      const next = step(powers, 0)
      place = moved(place, next, 1)
      if (size(next) < SETTLED_UM) break
    }
    return place
  }
  for (const sharpness of SHARPNESS) {
    const smooth = (at: BlockPlace) => {
      const losses = watched.map((channel) => channelLossDb(channel, at))
      const most = Math.max(...losses)
      const weights = Float64Array.from(losses, (loss) => Math.exp(sharpness * (loss - most)))
      const sum = weights.reduce((total, each) => total + each, 0)
      return { value: most + Math.log(sum) / sharpness, weights: weights.map((each) => each / sum) }
    }
    for (let n = 0; n < MOST_STEPS; n++) {
      const here = smooth(place)
      const next = step(here.weights, sharpness)
      let share = 1
      while (share > 1e-6 && smooth(moved(place, next, share)).value > here.value) share /= 2
      if (share <= 1e-6) break
      place = moved(place, next, share)
      if (size(next) * share < SETTLED_UM) break
    }
  }
  return place
}
