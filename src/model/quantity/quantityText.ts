// What the user types into a number field: `3.2`, `0.35 deg`, `10,4 um`, `10.4/2 um`.
// A number with or without a unit is read at once; anything more goes through the expression reader,
// which is loaded when first needed.

import { failure, type Issue, type IssueCode, type Result, success } from '../issue'
import { LIMITS } from '../words/limits'
import { ruleBreach } from './quantity'
import type { QuantityRule } from './quantityRules'
import { dimensionOf, type Unit, unitFactor, unitsOf } from './units'

export interface TypedQuantity {
  readonly value: number
  readonly unit: Unit
  /** Present where the text was more than a number and a unit. */
  readonly typed?: string
}

const LONGEST_TEXT = LIMITS.numberCharacters

const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?/i

/** `1,000` is one to some and a thousand to others. `0,125` and `12,34` can only be decimals. */
const THOUSANDS_OR_DECIMALS = /^[+-]?[1-9]\d{0,2},\d{3}(?!\d)/

const SPELLINGS: readonly (readonly [RegExp, string])[] = [
  [/[µμ]/g, 'u'],
  [/−/g, '-'],
  [/²/g, '^2'],
  [/°\s*C/g, ' degC'],
  [/°/g, ' deg'],
  [/(\d),(\d)/g, '$1.$2'],
]

function respelt(text: string): string {
  return SPELLINGS.reduce((t, [pattern, to]) => t.replace(pattern, to), text.trim())
}

function issue(code: IssueCode, message: string): Issue {
  return { path: [], code, message }
}

/** Issue for a unit of another kind, or for letters that are no unit at all. */
function wrongUnit(text: string, unit: string, rule: QuantityRule): Issue {
  const allowed = unitsOf(rule.dimension).join(', ')
  return dimensionOf(unit) === null
    ? issue(
        'format',
        `${rule.label} is "${text}", which is not a number with a unit; allowed units: ${allowed}`,
      )
    : issue('unit', `${rule.label} is "${text}", but ${unit} is an incompatible unit; allowed: ${allowed}`)
}

function checked(read: TypedQuantity, rule: QuantityRule): Result<TypedQuantity> {
  const breach = ruleBreach(read.value, read.unit, rule)
  if (breach !== null) return failure(issue('range', breach))
  return success({ ...read, value: read.value + 0 }) // −0, which no file can hold, becomes 0
}

/**
 * Reads a number with an optional unit; null where the text is more than that.
 * A bare number is in `bareUnit`, the unit the field shows.
 */
export function readPlainQuantityText(
  text: string,
  rule: QuantityRule,
  bareUnit: Unit = rule.unit,
): Result<TypedQuantity> | null {
  if (text.length > LONGEST_TEXT) {
    return failure(issue('size', `${rule.label} has ${text.length} characters; the limit is ${LONGEST_TEXT}`))
  }
  if (text.trim() === '') return failure(issue('missing', `${rule.label} is empty; enter a number`))
  if (THOUSANDS_OR_DECIMALS.test(text.trim())) {
    const [whole, part] = text.trim().split(/[,\s]/)
    const message = `${rule.label} is "${text}", which could be ${whole}.${part} or ${whole}${part}; enter one of these`
    return failure(issue('format', message))
  }
  const spelt = respelt(text)
  const number = NUMBER.exec(spelt)?.[0]
  if (number === undefined) return null
  const unit = spelt.slice(number.length).trim() || bareUnit
  if (unitFactor(rule.dimension, unit) === null) {
    return dimensionOf(unit) === null ? null : failure(wrongUnit(text, unit, rule))
  }
  return checked({ value: Number(number), unit: unit as Unit }, rule)
}

/** The unit at the end of an expression, which is the one the field should go on showing. */
function trailingUnit(text: string, rule: QuantityRule): Unit | null {
  const named = unitsOf(rule.dimension).filter((unit) => text.endsWith(unit) && unit !== '1')
  return named.sort((a, b) => b.length - a.length)[0] ?? null
}

/** Reads a number, a number with a unit, or a small expression. */
export async function readQuantityText(
  text: string,
  rule: QuantityRule,
  bareUnit: Unit = rule.unit,
): Promise<Result<TypedQuantity>> {
  const plain = readPlainQuantityText(text, rule, bareUnit)
  if (plain !== null) return plain
  const { evaluateExpression } = await import('./expression')
  const spelt = respelt(text)
  const unit = trailingUnit(spelt, rule) ?? bareUnit
  const outcome = evaluateExpression(spelt, rule.dimension, unit)
  if (outcome.kind === 'value') return checked({ value: outcome.value, unit, typed: text.trim() }, rule)
  if (outcome.kind === 'other dimension') {
    const allowed = unitsOf(rule.dimension).join(', ')
    const left = outcome.left === '' ? 'has no unit' : `has the incompatible unit ${outcome.left}`
    return failure(issue('unit', `${rule.label} is "${text}", which ${left}; allowed: ${allowed}`))
  }
  return failure(
    issue(
      'format',
      `${rule.label} is "${text}", which is not a number or an expression such as 10.4/2 ${rule.unit}`,
    ),
  )
}
