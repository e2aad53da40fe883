// Writing computed numbers back into quantities that people read.

import { rounded } from '../../numerics/numberText'
import { coreValue, type Quantity } from './quantity'
import { RULES, type RuleName } from './quantityRules'
import { unitFactor } from './units'

const DIGITS = 12

/** Writes a core value in the unit that the quantity is shown in, to at most `digits` digits. */
export function setCoreValue(quantity: Quantity, ruleName: RuleName, core: number, digits = DIGITS): void {
  if (coreValue(quantity, ruleName) === core) return
  quantity.value = shownNumber(quantity, ruleName, core, digits)
  quantity.typed = undefined
}

/** Writes the half width of the tolerance, given in the core's unit. */
export function setCoreHalfWidth(
  quantity: Quantity,
  ruleName: RuleName,
  coreHalfWidth: number,
  digits = 3,
): void {
  const plusMinus = shownNumber(quantity, ruleName, coreHalfWidth, digits)
  quantity.tolerance = { ...(quantity.tolerance ?? { distribution: 'uniform' }), plusMinus }
}

function shownNumber(quantity: Quantity, ruleName: RuleName, core: number, digits: number): number {
  const factor = unitFactor(RULES[ruleName].dimension, quantity.unit) ?? 1
  return rounded(core / factor, digits)
}

/** The same, rounded down to `digits`, so that what was found to be allowed is not exceeded by its last digit. */
export function setCoreHalfWidthWithin(
  quantity: Quantity,
  ruleName: RuleName,
  coreHalfWidth: number,
  digits = 3,
): void {
  const factor = unitFactor(RULES[ruleName].dimension, quantity.unit) ?? 1
  const half = coreHalfWidth / factor
  const step = half > 0 ? 10 ** (Math.floor(Math.log10(half)) - digits + 1) : 1
  const plusMinus = rounded(Math.floor(half / step + 1e-9) * step, digits)
  quantity.tolerance = { ...(quantity.tolerance ?? { distribution: 'uniform' }), plusMinus }
}
