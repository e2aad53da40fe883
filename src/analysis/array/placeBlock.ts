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

/** What the station moves to find the best place; the rest stays as it was put. */
export interface BlockFreedom {
  readonly x: boolean
  readonly y: boolean
  readonly roll: boolean
}

const MOST_STEPS = 200
const RIDGE = 1e-9
const SETTLED_UM = 1e-6
/** The smooth maximum is sharpened in stages, per dB: the last is within ln(64) / 400 = 0.01 dB of the worst channel. */
const STAGES = [
  { sharpness: 1, settledUm: 1e-2 },
  { sharpness: 8, settledUm: 1e-2 },
  { sharpness: 60, settledUm: 1e-3 },
  { sharpness: 400, settledUm: 1e-5 },
] as const
const LEAST_SHARE = 1e-6

/** Loss of a channel with the block at a place, dB. */
export function channelLossDb(channel: BlockChannel, { xUm, yUm, rollRad }: BlockPlace): number {
  const x = xUm - channel.bestXUm
  const y = yUm + channel.alongUm * rollRad - channel.bestYUm
  return channel.leastDb + channel.a11 * x * x + 2 * channel.a12 * x * y + channel.a22 * y * y
}

/** Solves the 3 x 3 system m s = r; s overwrites r. Positive definite, so no pivot is looked for. */
function solve(m: Float64Array, r: Float64Array): void {
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

/** The best place of the block for what is `free`. At least one channel, finite curvatures above 0. */
export function placeBlock(channels: readonly BlockChannel[], aim: ArrayAim, free: BlockFreedom): BlockPlace {
  const watched =
    aim === 'outer two' ? channels.filter((_, i) => i === 0 || i === channels.length - 1) : channels
  const count = watched.length
  const rolls = free.roll && count > 1
  const held = [!free.x, !free.y, !rolls]
  const halfLengthUm = Math.max(1, ...watched.map((channel) => Math.abs(channel.alongUm)))
  // The unknowns are x, y and roll times the half length; the gradient of a channel is half that of its loss.
  const at = new Float64Array(3)
  if (free.x) at[0] = watched.reduce((sum, channel) => sum + channel.bestXUm, 0) / count
  if (free.y) at[1] = watched.reduce((sum, channel) => sum + channel.bestYUm, 0) / count
  const trial = new Float64Array(3)
  const losses = new Float64Array(count)
  const weights = new Float64Array(count)
  const gradients = new Float64Array(3 * count)
  const m = new Float64Array(9)
  const r = new Float64Array(3)

  /** Losses at a place, with the largest of them; and the gradients where asked for. */
  const look = (place: Float64Array, withGradients: boolean): number => {
    let most = Number.NEGATIVE_INFINITY
    for (let i = 0; i < count; i++) {
      const channel = watched[i]
      if (channel === undefined) continue
      const lever = rolls ? channel.alongUm / halfLengthUm : 0
      const x = (place[0] ?? 0) - channel.bestXUm
      const y = (place[1] ?? 0) + lever * (place[2] ?? 0) - channel.bestYUm
      const gx = channel.a11 * x + channel.a12 * y
      const gy = channel.a12 * x + channel.a22 * y
      const loss = channel.leastDb + gx * x + gy * y
      losses[i] = loss
      if (loss > most) most = loss
      if (!withGradients) continue
      gradients[3 * i] = gx
      gradients[3 * i + 1] = gy
      gradients[3 * i + 2] = gy * lever
    }
    return most
  }
  /** The Newton step for the weights, with the spread of the gradients where sharpness asks for it; its length. */
  const step = (sharpness: number): number => {
    m.fill(0)
    r.fill(0)
    for (let i = 0; i < count; i++) {
      const channel = watched[i]
      if (channel === undefined) continue
      const weight = weights[i] ?? 0
      const lever = rolls ? channel.alongUm / halfLengthUm : 0
      const { a11, a12, a22 } = channel
      m[0] = (m[0] ?? 0) + weight * a11
      m[1] = (m[1] ?? 0) + weight * a12
      m[2] = (m[2] ?? 0) + weight * a12 * lever
      m[4] = (m[4] ?? 0) + weight * a22
      m[5] = (m[5] ?? 0) + weight * a22 * lever
      m[8] = (m[8] ?? 0) + weight * a22 * lever * lever
      for (let k = 0; k < 3; k++) r[k] = (r[k] ?? 0) + weight * (gradients[3 * i + k] ?? 0)
    }
    if (sharpness > 0) {
      for (let i = 0; i < count; i++) {
        const scale = 2 * sharpness * (weights[i] ?? 0)
        for (let j = 0; j < 3; j++) {
          const off = scale * ((gradients[3 * i + j] ?? 0) - (r[j] ?? 0))
          for (let k = j; k < 3; k++) {
            m[3 * j + k] = (m[3 * j + k] ?? 0) + off * ((gradients[3 * i + k] ?? 0) - (r[k] ?? 0))
          }
        }
      }
    }
    m[3] = m[1] ?? 0
    m[6] = m[2] ?? 0
    m[7] = m[5] ?? 0
    for (let k = 0; k < 3; k++) {
      if (!held[k]) continue
      for (let j = 0; j < 3; j++) m[3 * k + j] = m[3 * j + k] = 0
      m[4 * k] = 1
      r[k] = 0
    }
    // Where one channel outweighs all others, nothing says how to split y and roll: a little stiffness decides.
    const stiffness = RIDGE * ((m[0] ?? 0) + (m[4] ?? 0))
    for (let k = 0; k < 3; k++) m[4 * k] = (m[4 * k] ?? 0) + stiffness
    solve(m, r)
    return Math.hypot(r[0] ?? 0, r[1] ?? 0, r[2] ?? 0)
  }
  const tryStep = (share: number) => {
    for (let k = 0; k < 3; k++) trial[k] = (at[k] ?? 0) - share * (r[k] ?? 0)
  }
  const sumOfWeights = (sharpness: number, most: number): number => {
    let sum = 0
    for (let i = 0; i < count; i++) {
      const weight = Math.exp(sharpness * ((losses[i] ?? 0) - most))
      weights[i] = weight
      sum += weight
    }
    return sum
  }

  if (aim !== 'worst channel') {
    for (let n = 0; n < MOST_STEPS; n++) {
      look(at, true)
      let least = Number.POSITIVE_INFINITY
      for (let i = 0; i < count; i++) least = Math.min(least, losses[i] ?? 0)
      for (let i = 0; i < count; i++) weights[i] = 10 ** ((least - (losses[i] ?? 0)) / 10)
      const length = step(0)
      tryStep(1)
      at.set(trial)
      if (length < SETTLED_UM) break
    }
  } else {
    for (const { sharpness, settledUm } of STAGES) {
      for (let n = 0; n < MOST_STEPS; n++) {
        const most = look(at, true)
        const sum = sumOfWeights(sharpness, most)
        const value = most + Math.log(sum) / sharpness
        for (let i = 0; i < count; i++) weights[i] = (weights[i] ?? 0) / sum
        const length = step(sharpness)
        let share = 1
        for (; share > LEAST_SHARE; share /= 2) {
          tryStep(share)
          const there = look(trial, false)
          if (there + Math.log(sumOfWeights(sharpness, there)) / sharpness <= value) break
        }
        if (share <= LEAST_SHARE) break
        at.set(trial)
        if (length * share < settledUm) break
      }
    }
  }
  return { xUm: at[0] ?? 0, yUm: at[1] ?? 0, rollRad: (at[2] ?? 0) / halfLengthUm }
}
