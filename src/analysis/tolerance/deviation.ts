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

export function deviationOf(spread: Spread): Deviation {
  const { halfWidth, coverage } = spread
  switch (spread.distribution) {
    case 'normal': {
      const sigma = halfWidth / coverage
      return (u) => sigma * normalQuantile(u)
    }
    case 'truncated normal': {
      const sigma = halfWidth / coverage
      const below = normalProbability(-coverage)
      const inside = 1 - 2 * below
      return (u) => sigma * normalQuantile(below + u * inside)
    }
    case 'uniform':
      return (u) => halfWidth * (2 * u - 1)
    case 'triangular':
      return (u) => halfWidth * (u < 0.5 ? Math.sqrt(2 * u) - 1 : 1 - Math.sqrt(2 * (1 - u)))
    case 'one-sided':
      return spread.side === 'above' ? (u) => halfWidth * u : (u) => halfWidth * (u - 1)
    case 'fixed':
      return () => 0
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
