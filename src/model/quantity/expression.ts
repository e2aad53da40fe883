// Small arithmetic with units, evaluated by mathjs over a closed list of node types, so that a text from a
// file or the clipboard can compute but not reach anything.

import {
  absDependencies,
  acosDependencies,
  addDependencies,
  asinDependencies,
  atanDependencies,
  cosDependencies,
  create,
  divideDependencies,
  evaluateDependencies,
  type MathNode,
  type Unit as MathUnit,
  multiplyDependencies,
  piDependencies,
  powDependencies,
  sinDependencies,
  sqrtDependencies,
  subtractDependencies,
  tanDependencies,
  unaryMinusDependencies,
  unaryPlusDependencies,
  unitDependencies,
} from 'mathjs'
import { type Dimension, type Unit, unitsOf } from './units'

const math = create({
  ...absDependencies,
  ...acosDependencies,
  ...addDependencies,
  ...asinDependencies,
  ...atanDependencies,
  ...cosDependencies,
  ...divideDependencies,
  ...evaluateDependencies,
  ...multiplyDependencies,
  ...piDependencies,
  ...powDependencies,
  ...sinDependencies,
  ...sqrtDependencies,
  ...subtractDependencies,
  ...tanDependencies,
  ...unaryMinusDependencies,
  ...unaryPlusDependencies,
  ...unitDependencies,
})

const ALLOWED_FUNCTIONS: ReadonlySet<string> = new Set([
  'sqrt',
  'abs',
  'sin',
  'cos',
  'tan',
  'asin',
  'acos',
  'atan',
])
const ALLOWED_CONSTANTS: ReadonlySet<string> = new Set(['pi'])
const MATH_UNITS: ReadonlySet<string> = new Set(['nm', 'um', 'mm', 'cm', 'm', 'rad', 'mrad', 'deg'])

type ExpressionOutcome =
  | { readonly kind: 'value'; readonly value: number }
  /** `left` is the unit that the result has, as `um nm` or `um / rad`; empty where all units cancel. */
  | { readonly kind: 'other dimension'; readonly left: string }
  | { readonly kind: 'not an expression' }

function isAllowed(node: MathNode): boolean {
  switch (node.type) {
    case 'ConstantNode':
      return typeof (node as MathNode & { value: unknown }).value === 'number'
    case 'ParenthesisNode':
    case 'OperatorNode':
      return true
    case 'SymbolNode': {
      const { name } = node as MathNode & { name: string }
      return MATH_UNITS.has(name) || ALLOWED_CONSTANTS.has(name) || ALLOWED_FUNCTIONS.has(name)
    }
    case 'FunctionNode':
      return ALLOWED_FUNCTIONS.has((node as MathNode & { fn: { name: string } }).fn.name)
    default:
      return false
  }
}

/** Units that mathjs does not know come last in the text and are removed before it is read. */
function withoutForeignUnit(text: string, dimension: Dimension): string {
  const foreign = unitsOf(dimension).filter((unit) => !MATH_UNITS.has(unit) && unit !== '1')
  const found = foreign.filter((unit) => text.endsWith(unit)).sort((a, b) => b.length - a.length)[0]
  return found === undefined ? text : text.slice(0, -found.length)
}

/** Value of the expression in `unit`; a bare number is taken to be in `unit` already. */
export function evaluateExpression(text: string, dimension: Dimension, unit: Unit): ExpressionOutcome {
  let result: unknown
  let hasUnit = false
  try {
    const node = math.parse(withoutForeignUnit(text, dimension))
    let allowed = true
    node.traverse((inner) => {
      allowed &&= isAllowed(inner)
      hasUnit ||= inner.type === 'SymbolNode' && MATH_UNITS.has((inner as MathNode & { name: string }).name)
    })
    if (!allowed) return { kind: 'not an expression' }
    result = node.compile().evaluate()
  } catch {
    return { kind: 'not an expression' }
  }
  if (typeof result === 'number') {
    // `10 um/2 nm` is a ratio. A number that no unit went into is in the unit of the field.
    if (hasUnit && dimension !== 'ratio' && dimension !== 'angle')
      return { kind: 'other dimension', left: '' }
    return Number.isFinite(result) ? { kind: 'value', value: result } : { kind: 'not an expression' }
  }
  const measured = result as MathUnit
  if (typeof measured?.toNumber !== 'function') return { kind: 'not an expression' }
  try {
    const value = measured.toNumber(unit)
    return Number.isFinite(value) ? { kind: 'value', value } : { kind: 'not an expression' }
  } catch {
    return { kind: 'other dimension', left: measured.formatUnits() }
  }
}
