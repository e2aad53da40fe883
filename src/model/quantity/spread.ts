// A tolerance as a distribution about its value, in the core's unit: what worst case, samples and indices read.

import { coreHalfWidth, coreValue, type Distribution, type Quantity } from './quantity'
import type { RuleName } from './quantityRules'

/** Standard deviations in the half width of a normal tolerance by default. */
export const DEFAULT_COVERAGE = 2

export interface Spread {
  readonly distribution: Distribution
  /** Half width of the symmetric kinds, reach of the one-sided kind; 0 for a fixed value. */
  readonly halfWidth: number
  /** Standard deviations in the half width, for the normal kinds. */
  readonly coverage: number
  /** Where a one-sided tolerance lies. */
  readonly side: 'above' | 'below'
  /** One sample for the whole part, or one for each channel. */
  readonly share: 'part' | 'channel'
}

export const NO_SPREAD: Spread = {
  distribution: 'fixed',
  halfWidth: 0,
  coverage: DEFAULT_COVERAGE,
  side: 'above',
  share: 'part',
}

export function spreadOf(quantity: Quantity, rule: RuleName): Spread {
  const { tolerance } = quantity
  const halfWidth = coreHalfWidth(quantity, rule)
  if (tolerance === undefined || halfWidth === 0) return NO_SPREAD
  return {
    distribution: tolerance.distribution,
    halfWidth,
    coverage: tolerance.coverage ?? DEFAULT_COVERAGE,
    side: tolerance.side ?? 'above',
    share: tolerance.share ?? 'part',
  }
}

/** What a measurement leaves open about the value, the same for every part; no spread where none is stated. */
export function uncertaintySpread({ uncertainty, ...quantity }: Quantity, rule: RuleName): Spread {
  if (uncertainty === undefined || uncertainty.plusMinus === 0) return NO_SPREAD
  return {
    distribution: 'normal',
    halfWidth: coreValue({ ...quantity, value: uncertainty.plusMinus }, rule),
    coverage: uncertainty.coverage,
    side: 'above',
    share: 'part',
  }
}

/** The ends of a tolerance as distances from its value. A normal tolerance ends at its half width, by convention. */
export function spreadEnds({ distribution, halfWidth, side }: Spread): readonly [low: number, high: number] {
  if (distribution !== 'one-sided') return [-halfWidth, halfWidth]
  return side === 'above' ? [0, halfWidth] : [-halfWidth, 0]
}
