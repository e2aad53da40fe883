// Writing computed numbers back into quantities that people read.

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
  return Number((core / factor).toPrecision(digits))
}
