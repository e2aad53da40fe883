// A number as engineers keep it: value, unit, tolerance with its distribution, and where it came from.

import { rounded } from '../../numerics/numberText'
import { type QuantityRule, RULES, type RuleName } from './quantityRules'
import { type Unit, unitFactor, unitLabel, unitsOf } from './units'

export const PROVENANCES = ['data sheet', 'measured', 'computed', 'estimate'] as const
export type Provenance = (typeof PROVENANCES)[number]

export const DISTRIBUTIONS = [
  'normal',
  'truncated normal',
  'uniform',
  'triangular',
  'one-sided',
  'fixed',
] as const
export type Distribution = (typeof DISTRIBUTIONS)[number]

export const SHARES = ['part', 'channel'] as const
export const SIDES = ['above', 'below'] as const

/**
 * `plusMinus` is the half width in the quantity's own unit. For the normal kinds it is `coverage` standard
 * deviations (2 by default); the truncated one ends there. One-sided is uniform from the value to `plusMinus`
 * above or below it. `share` says whether one sample serves the whole part or each channel has its own.
 */
export interface Tolerance {
  plusMinus: number
  distribution: Distribution
  coverage?: number | undefined
  share?: (typeof SHARES)[number] | undefined
  side?: (typeof SIDES)[number] | undefined
}

/**
 * How well a measurement knows the value, in the quantity's own unit: normal, `plusMinus` being `coverage` standard deviations (JCGM
 * 100). One deviation for all parts, because it is the number that is off; the tolerance is how far parts differ from each other.
 */
export interface Uncertainty {
  plusMinus: number
  coverage: number
}

export interface Quantity {
  value: number
  unit: Unit
  provenance: Provenance
  /** Production spread of the part, from part to part. */
  tolerance?: Tolerance | undefined
  /** Of the measurement that gave the value, common to all parts. */
  uncertainty?: Uncertainty | undefined
  /** The expression as entered, where it was more than a number. */
  typed?: string | undefined
  note?: string | undefined
}

/** The quantity's value in the core's unit of its dimension. */
export function coreValue(quantity: Quantity, ruleName: RuleName): number {
  const factor = unitFactor(RULES[ruleName].dimension, quantity.unit)
  if (factor === null) throw new Error(`${quantity.unit} is not a unit of ${ruleName}`)
  return quantity.value * factor
}

/** Half width of the tolerance in the core's unit; 0 where none is given. */
export function coreHalfWidth(quantity: Quantity, ruleName: RuleName): number {
  const half = quantity.tolerance?.distribution === 'fixed' ? 0 : (quantity.tolerance?.plusMinus ?? 0)
  return half === 0 ? 0 : coreValue({ ...quantity, value: half }, ruleName)
}

/** What a message calls a value such as 1e400, which no number holds. */
export const NO_NUMBER = 'too large to represent'

/** Why a value in a given unit breaks its rule, or null where it does not. */
export function ruleBreach(value: number, unit: Unit, rule: QuantityRule): string | null {
  const factor = unitFactor(rule.dimension, unit)
  if (factor === null) {
    return `${rule.label} cannot be in ${unit}; allowed: ${unitsOf(rule.dimension).join(', ')}`
  }
  const core = value * factor
  if (Number.isFinite(core) && core >= rule.minCore && core <= rule.maxCore) return null
  const signed = (number: number) => String(number).replace(/^-/, '−')
  const shown = (limit: number) => signed(rounded(limit / factor, 6))
  const label = unitLabel(unit)
  const named = unit === '1' ? '' : label === '°' ? label : ` ${label}`
  return `${rule.label} is ${Number.isFinite(value) ? signed(value) + named : NO_NUMBER}; must be ${shown(rule.minCore)}${label === '°' ? label : ''} to ${shown(rule.maxCore)}${named}`
}

/** A quantity written in the shortest way, for the demo, the catalogue and tests. */
export function quantityOf(
  value: number,
  unit: Unit,
  provenance: Provenance = 'estimate',
  tolerance?: number | Tolerance,
): Quantity {
  if (tolerance === undefined) return { value, unit, provenance }
  return {
    value,
    unit,
    provenance,
    tolerance: typeof tolerance === 'number' ? { plusMinus: tolerance, distribution: 'uniform' } : tolerance,
  }
}
