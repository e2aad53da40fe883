// The ± of a number as text next to it: `± 0.5`, in the number's own unit.

import type { Quantity } from '../../model/quantity/quantity'
import { type Dimension, type Unit, unitFactor } from '../../model/quantity/units'
import { LIMITS } from '../../model/words/limits'
import { plainText, rounded } from '../../numerics/numberText'

/** A longer text is not a number that anybody typed. */
const LONGEST_TEXT = 200
const NUMBER = /^[±+]?\s*(\d+(?:\.\d*)?|\.\d+)/

/** `± 0.5`, `+ 0.5` or `− 0.5`; empty without a tolerance. */
export function plusMinusText({ tolerance }: Pick<Quantity, 'tolerance'>): string {
  if (tolerance === undefined || tolerance.plusMinus === 0) return ''
  const sign = tolerance.distribution !== 'one-sided' ? '±' : tolerance.side === 'below' ? '−' : '+'
  return `${sign} ${plainText(tolerance.plusMinus, 4)}`
}

/** The half width that a text states, in `unit`; 0 for an empty text, null where it is not a number that can be used. */
export function readPlusMinus(text: string, dimension: Dimension, unit: Unit): number | null {
  const plain = text
    .trim()
    .replace(/^−/, '')
    .replace(/(\d),(\d)/, '$1.$2')
    .replace(/[µμ]/, 'u')
    .replace('°', 'deg')
  if (plain === '' || plain === '±') return 0
  const match = plain.length > LONGEST_TEXT ? null : NUMBER.exec(plain)
  if (match === null) return null
  const written = plain.slice(match[0].length).trim() || unit
  const [own, typed] = [unitFactor(dimension, unit), unitFactor(dimension, written)]
  if (own === null || typed === null) return null
  const value = rounded((Number(match[1]) * typed) / own, 12)
  return value <= LIMITS.plusMinus ? value : null
}

/** The half width `steps` of `step` from `from`, limited to 0 (no tolerance) and the highest value that is allowed. */
export function steppedPlusMinus(from: number, steps: number, step: number): number {
  return Math.min(LIMITS.plusMinus, Math.max(0, rounded(from + steps * step, 12)))
}
