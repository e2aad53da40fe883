// A sample of a tolerance from a number between 0 and 1, and the moments of each distribution.
//   normal          sigma Q(u),  sigma = half width / coverage
//   truncated       the same, truncated at the half width: sigma Q(F(-k) + u (F(k) - F(-k)))
//   uniform         half width (2 u - 1);  triangular: sum of two such samples;  one-sided: half width u
// Source of the standard deviations: JCGM 100:2008, 4.3.5 to 4.3.9 (a/sqrt(3), a/sqrt(6)); the truncated normal by
// integration by parts.

import type { Spread } from '../../model/quantity/spread'
import { normalProbability, normalQuantile } from '../../numerics/normal'

/** Deviation from the value for a number `u` between 0 and 1, exclusive; rising with u. */
export type Deviation = (u: number) => number

/** Replaces such numbers by their samples: every `stride`th entry of `u` from `from` up to, not including, `end`. */
export type DeviateEach = (u: Float64Array, from: number, end: number, stride: number) => void

/** Samples about `centre`. One loop per distribution: a call per sample would take longer than most of the formulas. */
export function deviateEach(spread: Spread, centre = 0): DeviateEach {
  const { halfWidth, coverage } = spread
  switch (spread.distribution) {
    case 'normal': {
      const sigma = halfWidth / coverage
      return (u, from, end, stride) => {
        for (let i = from; i < end; i += stride) u[i] = centre + sigma * normalQuantile(u[i] as number)
      }
    }
    case 'truncated normal': {
      const sigma = halfWidth / coverage
      const below = normalProbability(-coverage)
      const inside = 1 - 2 * below
      return (u, from, end, stride) => {
        for (let i = from; i < end; i += stride)
          u[i] = centre + sigma * normalQuantile(below + (u[i] as number) * inside)
      }
    }
    case 'uniform':
      return (u, from, end, stride) => {
        for (let i = from; i < end; i += stride) u[i] = centre + halfWidth * (2 * (u[i] as number) - 1)
      }
    case 'triangular':
      return (u, from, end, stride) => {
        for (let i = from; i < end; i += stride) {
          const at = u[i] as number
          u[i] = centre + halfWidth * (at < 0.5 ? Math.sqrt(2 * at) - 1 : 1 - Math.sqrt(2 * (1 - at)))
        }
      }
    case 'one-sided': {
      const start = spread.side === 'above' ? 0 : 1
      return (u, from, end, stride) => {
        for (let i = from; i < end; i += stride) u[i] = centre + halfWidth * ((u[i] as number) - start)
      }
    }
    case 'fixed':
      return (u, from, end, stride) => {
        for (let i = from; i < end; i += stride) u[i] = centre
      }
  }
}

export function deviationOf(spread: Spread): Deviation {
  const deviate = deviateEach(spread)
  const cell = new Float64Array(1)
  return (u) => {
    cell[0] = u
    deviate(cell, 0, 1, 1)
    return cell[0] as number
  }
}

/** Standard deviation of the samples, core unit. */
export function standardDeviationOf({ distribution, halfWidth, coverage }: Spread): number {
  switch (distribution) {
    case 'normal':
      return halfWidth / coverage
    case 'truncated normal': {
      const density = Math.exp((-coverage * coverage) / 2) / Math.sqrt(2 * Math.PI)
      const inside = 1 - 2 * normalProbability(-coverage)
      return (halfWidth / coverage) * Math.sqrt(1 - (2 * coverage * density) / inside)
    }
    case 'uniform':
      return halfWidth / Math.sqrt(3)
    case 'triangular':
      return halfWidth / Math.sqrt(6)
    case 'one-sided':
      return halfWidth / Math.sqrt(12)
    case 'fixed':
      return 0
  }
}
