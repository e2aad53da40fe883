// Newton's method for the position of an array: all channels at once, each a quadratic form about its own optimum.
// The unknowns are x, y and roll times the half length. Without allocation once it is set up.

import type { BlockChannel, BlockFreedom, BlockPosition } from './blockChannel'

const RIDGE = 1e-9

export interface BlockSearch {
  /** Losses at the last position evaluated, dB. */
  readonly losses: Float64Array
  /** Weights of the channels in the next step, set by the caller; their sum may be any positive number. */
  readonly weights: Float64Array
  /** Looks at the present place, with gradients. Returns the largest loss. */
  readonly look: () => number
  /** Looks at `share` of the step from the present place. Returns the largest loss there. */
  readonly probe: (share: number) => number
  /**
   * Finds the step down the weighted sum of losses from the place last looked at. `spread` adds that many times the
   * covariance of the gradients under `of`, the second derivative of a smooth maximum. Returns the step's length, um.
   */
  readonly step: (spread: number, of: Float64Array) => number
  /** Moves to the last position probed. */
  readonly go: () => void
  readonly position: () => BlockPosition
}

/** Solves the 3 x 3 system m s = r; s overwrites r. Positive definite, so no pivoting is needed. */
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

/** A search from the middle of the channels' best points. At least one channel, finite curvatures above 0. */
export function blockSearch(watched: readonly BlockChannel[], free: BlockFreedom): BlockSearch {
  const count = watched.length
  const rolls = free.roll && count > 1
  const held = [!free.x, !free.y, !rolls]
  const halfLengthUm = Math.max(1, ...watched.map((channel) => Math.abs(channel.alongUm)))
  const levers = Float64Array.from(watched, ({ alongUm }) => (rolls ? alongUm / halfLengthUm : 0))
  const at = new Float64Array(3)
  if (free.x) at[0] = watched.reduce((sum, channel) => sum + channel.bestXUm, 0) / count
  if (free.y) at[1] = watched.reduce((sum, channel) => sum + channel.bestYUm, 0) / count
  const trial = Float64Array.from(at)
  const losses = new Float64Array(count)
  const weights = new Float64Array(count)
  /** Half the gradient of each channel's loss. */
  const gradients = new Float64Array(3 * count)
  const m = new Float64Array(9)
  const r = new Float64Array(3)
  const centre = new Float64Array(3)

  const lookAt = (position: Float64Array): number => {
    let most = Number.NEGATIVE_INFINITY
    for (let i = 0; i < count; i++) {
      const channel = watched[i]
      if (channel === undefined) continue
      const lever = levers[i] ?? 0
      const x = (position[0] ?? 0) - channel.bestXUm
      const y = (position[1] ?? 0) + lever * (position[2] ?? 0) - channel.bestYUm
      const gx = channel.a11 * x + channel.a12 * y
      const gy = channel.a12 * x + channel.a22 * y
      const loss = channel.leastDb + gx * x + gy * y
      losses[i] = loss
      if (!(loss <= most)) most = loss
      gradients[3 * i] = gx
      gradients[3 * i + 1] = gy
      gradients[3 * i + 2] = gy * lever
    }
    return most
  }
  const addCurvature = ({ a11, a12, a22 }: BlockChannel, lever: number, weight: number) => {
    m[0] = (m[0] ?? 0) + weight * a11
    m[1] = (m[1] ?? 0) + weight * a12
    m[2] = (m[2] ?? 0) + weight * a12 * lever
    m[4] = (m[4] ?? 0) + weight * a22
    m[5] = (m[5] ?? 0) + weight * a22 * lever
    m[8] = (m[8] ?? 0) + weight * a22 * lever * lever
  }
  const addSpread = (spread: number, of: Float64Array) => {
    centre.fill(0)
    for (let i = 0; i < count; i++) {
      for (let k = 0; k < 3; k++) centre[k] = (centre[k] ?? 0) + (of[i] ?? 0) * (gradients[3 * i + k] ?? 0)
    }
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < 3; j++) {
        const off = spread * (of[i] ?? 0) * ((gradients[3 * i + j] ?? 0) - (centre[j] ?? 0))
        for (let k = j; k < 3; k++) {
          m[3 * j + k] = (m[3 * j + k] ?? 0) + off * ((gradients[3 * i + k] ?? 0) - (centre[k] ?? 0))
        }
      }
    }
  }
  const hold = (k: number) => {
    for (let j = 0; j < 3; j++) {
      m[3 * k + j] = 0
      m[3 * j + k] = 0
    }
    m[4 * k] = 1
    r[k] = 0
  }
  return {
    losses,
    weights,
    look: () => lookAt(at),
    probe: (share) => {
      for (let k = 0; k < 3; k++) trial[k] = (at[k] ?? 0) - share * (r[k] ?? 0)
      return lookAt(trial)
    },
    step: (spread, of) => {
      m.fill(0)
      r.fill(0)
      for (let i = 0; i < count; i++) {
        const channel = watched[i]
        if (channel === undefined) continue
        const weight = weights[i] ?? 0
        addCurvature(channel, levers[i] ?? 0, weight)
        for (let k = 0; k < 3; k++) r[k] = (r[k] ?? 0) + weight * (gradients[3 * i + k] ?? 0)
      }
      if (spread > 0) addSpread(spread, of)
      m[3] = m[1] ?? 0
      m[6] = m[2] ?? 0
      m[7] = m[5] ?? 0
      for (let k = 0; k < 3; k++) if (held[k]) hold(k)
      // A single channel does not determine how to split y and roll: a small regularisation does.
      const stiffness = RIDGE * ((m[0] ?? 0) + (m[4] ?? 0))
      for (let k = 0; k < 3; k++) m[4 * k] = (m[4 * k] ?? 0) + stiffness
      solve(m, r)
      return Math.hypot(r[0] ?? 0, r[1] ?? 0, r[2] ?? 0)
    },
    go: () => at.set(trial),
    position: () => ({ xUm: at[0] ?? 0, yUm: at[1] ?? 0, rollRad: (at[2] ?? 0) / halfLengthUm }),
  }
}
