// One thing that a supplier must hold: a number with its limits, as the design reads them.

import type { Quantity } from '../../model/quantity/quantity'
import { valueText } from '../../model/quantity/quantityWords'
import { DEFAULT_COVERAGE } from '../../model/quantity/spread'
import { withUnit } from '../../model/quantity/units'
import { plainText, rounded } from '../../numerics/numberText'
import type { Bounds } from './guardBand'
import type { MethodId } from './methods'

/** `at most` and `at least` have one limit: the tolerance of a loss moves it to its worse end. */
export type Sense = 'within' | 'at most' | 'at least'

export interface Characteristic {
  /** A name that no wording changes; differs within one part. */
  readonly id: string
  readonly label: string
  readonly quantity: Quantity
  readonly sense: Sense
  readonly method: MethodId
}

/** Digits that hide what adding in binary leaves. */
const DIGITS = 12
const tidy = (value: number) => rounded(value, DIGITS)

const halfWidth = ({ tolerance }: Quantity) =>
  tolerance === undefined || tolerance.distribution === 'fixed' ? 0 : tolerance.plusMinus

/** The limits in the unit of the quantity. Two-sided ones need a tolerance: without it there are none, and it is to be agreed. */
export function limitsOf({ quantity, sense }: Pick<Characteristic, 'quantity' | 'sense'>): Bounds {
  const { value, tolerance } = quantity
  const half = halfWidth(quantity)
  if (sense === 'at most') return { lower: null, upper: tidy(value + half) }
  if (sense === 'at least') return { lower: tidy(value - half), upper: null }
  if (half === 0) return { lower: null, upper: null }
  const oneSided = tolerance?.distribution === 'one-sided'
  const below = oneSided && tolerance?.side !== 'below' ? 0 : half
  const above = oneSided && tolerance?.side === 'below' ? 0 : half
  return { lower: tidy(value - below), upper: tidy(value + above) }
}

/** Whether the limits are still to be agreed with the supplier. */
export function isOpen(characteristic: Pick<Characteristic, 'quantity' | 'sense'>): boolean {
  const { lower, upper } = limitsOf(characteristic)
  return lower === null && upper === null
}

const number = (value: number) => plainText(value, 6)

/** As a supplier reads it: `8.2 ± 0.2 µm`, `3.4 +0.2/−0 µm`, `≤ 0.45 dB`, `10 mm, tolerance to be agreed`. */
export function requirementText(characteristic: Pick<Characteristic, 'quantity' | 'sense'>): string {
  const { quantity, sense } = characteristic
  const { value, unit, tolerance } = quantity
  const { lower, upper } = limitsOf(characteristic)
  if (sense === 'at most') return `≤ ${withUnit(number(upper ?? value), unit)}`
  if (sense === 'at least') return `≥ ${withUnit(number(lower ?? value), unit)}`
  if (isOpen(characteristic)) return `${valueText(quantity)}, tolerance to be agreed`
  const width = number(tolerance?.plusMinus ?? 0)
  if (tolerance?.distribution !== 'one-sided') return withUnit(`${number(value)} ± ${width}`, unit)
  const [plus, minus] = tolerance.side === 'below' ? ['0', width] : [width, '0']
  return withUnit(`${number(value)} +${plus}/−${minus}`, unit)
}

/** The spread that the loss budget assumes between the limits; empty where none is stated. */
export function spreadText({ quantity: { tolerance } }: Characteristic): string {
  if (tolerance === undefined || tolerance.distribution === 'fixed') return ''
  const { distribution, coverage = DEFAULT_COVERAGE } = tolerance
  return distribution === 'normal' || distribution === 'truncated normal'
    ? `${distribution}, limits at ${number(coverage)} σ`
    : distribution
}

/** A list with those that are stated. */
export function stated(
  entries: readonly (readonly [
    id: string,
    label: string,
    quantity: Quantity | undefined,
    method: MethodId,
    sense?: Sense,
  ])[],
): readonly Characteristic[] {
  return entries.flatMap(([id, label, quantity, method, sense = 'within']) =>
    quantity === undefined ? [] : [{ id, label, quantity, method, sense }],
  )
}
