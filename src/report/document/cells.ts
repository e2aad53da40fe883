// Numbers as shown on screen and paper: fixed digits, a true minus, never NaN.

import { lossText } from '../../model/quantity/lossText'
import type { Quantity } from '../../model/quantity/quantity'
import { toleranceText } from '../../model/quantity/quantityWords'
import { fixedText, plainText, significantText } from '../../numerics/numberText'
import { NO_LIGHT_DB } from '../../optics/index'
import type { Cell, NumberCell } from './blocks'

/** A number with fixed decimals; what rounds to nothing has no sign. */
export function fixedCell(value: number, digits: number): Cell {
  if (!Number.isFinite(value)) return value > 0 ? 'without limit' : 'not known'
  return { value, text: fixedText(value, digits) }
}

/** A number with as many digits as it needs, seven at most. */
export function plainCell(value: number): NumberCell {
  return { value, text: plainText(value) }
}

/** Loss with two decimals: `1.18`, `−0.02`; `> 200` where no light arrives. */
export function lossCell(lossDb: number): NumberCell {
  return { value: Math.min(lossDb, NO_LIGHT_DB), text: lossText(lossDb) }
}

/** A share of 1 in per cent. */
export function percentCell(share: number, digits: number): NumberCell {
  const value = 100 * share
  return { value, text: fixedText(value, digits) }
}

/** What is left of the light: the ratio and, as text, three digits of it in per cent. */
export function throughputCell(lossDb: number): NumberCell {
  const value = 100 * 10 ** (-lossDb / 10)
  return { value, text: lossDb < 40 ? significantText(value, 3) : 'under 0.01' }
}

/** The tolerance with its distribution: `± 0.5 µm, uniform`; empty where the number is treated as exact. */
export function toleranceWords(quantity: Quantity): string {
  const width = toleranceText(quantity)
  return width === '' ? '' : `${width}, ${quantity.tolerance?.distribution ?? ''}`
}

export function documentCellText(cell: Cell): string {
  return typeof cell === 'string' ? cell : cell.text
}
