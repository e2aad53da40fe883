// What a number field does, whatever it looks like: typing, steps by keys, checks, and undo by gesture.
// Text that cannot be used stays, with the reason next to it, also while another page is shown.

import { type KeyboardEvent, useState } from 'react'
import { type Quantity, ruleBreach } from '../../model/quantity/quantity'
import { type QuantityRule, RULES, type RuleName } from '../../model/quantity/quantityRules'
import {
  readPlainQuantityText,
  readQuantityText,
  type TypedQuantity,
} from '../../model/quantity/quantityText'
import { unitFactor, withUnit } from '../../model/quantity/units'
import { plainText, rounded } from '../../numerics/numberText'
import { beginGesture, endGesture } from '../../store/workbench'
import { fieldWork, UNCOMMITTED } from './fieldWork'

const PAGE_STEPS = 10
/** Steps of a press of a key, in a number field. */
export const KEY_STEPS: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowDown: -1,
  PageUp: PAGE_STEPS,
  PageDown: -PAGE_STEPS,
}

interface RefusedText {
  readonly text: string
  readonly complaint: string
}

/** What was refused, until the quantity changes: a changed quantity is another object. */
const refusedTexts = new WeakMap<Quantity, RefusedText>()

/** The number with its unit, as screens print it. */
export function numberText(quantity: Quantity): string {
  const value = plainText(quantity.value, 7)
  return withUnit(value, quantity.unit)
}

/** One step of a rule, in the unit that the quantity is shown in. */
export function stepIn({ unit }: Pick<Quantity, 'unit'>, rule: QuantityRule): number {
  const own = unitFactor(rule.dimension, unit) ?? 1
  return (rule.step * (unitFactor(rule.dimension, rule.unit) ?? 1)) / own
}

export function useQuantityInput(
  quantity: Quantity,
  ruleName: RuleName,
  onWrite: (read: TypedQuantity) => void,
  /** A number shown in several places keeps a refused text in one of them. */
  { keepsRefused }: { readonly keepsRefused: boolean },
) {
  const rule: QuantityRule = RULES[ruleName]
  const shown = quantity.typed ?? numberText(quantity)
  const kept = keepsRefused ? refusedTexts.get(quantity) : undefined
  const [text, setText] = useState(() => kept?.text ?? shown)
  const [complaint, setComplaint] = useState(() => kept?.complaint ?? '')
  const [lastShown, setLastShown] = useState(shown)

  // While it is drawn: an effect would show the number a frame later than the drawing, and draw both twice.
  if (lastShown !== shown) {
    setLastShown(shown)
    setText(shown)
    setComplaint('')
  }

  const refuse = (why: string) => {
    setComplaint(why)
    if (keepsRefused) refusedTexts.set(quantity, { text, complaint: why })
  }

  /** Writes, and shows what was written also where the stored value was the same already. */
  const take = (read: TypedQuantity) => {
    refusedTexts.delete(quantity)
    onWrite(read)
    setText(read.typed ?? numberText({ ...quantity, ...read }))
    setComplaint('')
  }

  const commit = async () => {
    if (text === shown) return
    const read =
      readPlainQuantityText(text, rule, quantity.unit) ?? (await readQuantityText(text, rule, quantity.unit))
    if (read.ok) take(read.value)
    else refuse(read.issues.map((issue) => issue.message).join(' '))
  }

  const step = (steps: number) => {
    // A number typed but not yet committed is where the step starts.
    const typed = text === shown ? null : readPlainQuantityText(text, rule, quantity.unit)
    if (typed?.ok === false) {
      refuse(typed.issues.map((issue) => issue.message).join(' '))
      return
    }
    const from = typed === null ? quantity : { ...quantity, ...typed.value }
    const value = rounded(from.value + steps * stepIn(from, rule), 12)
    const breach = ruleBreach(value, from.unit, rule)
    if (breach === null) take({ value, unit: from.unit })
    else refuse(breach)
  }

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const steps = KEY_STEPS[event.key]
    if (steps !== undefined) {
      event.preventDefault()
      step(steps)
    } else if (event.key === 'Enter') {
      // What Enter commits is a step of its own; a run of arrow keys is one step.
      endGesture()
      fieldWork(commit().finally(endGesture))
    } else if (event.key === 'Escape') {
      refusedTexts.delete(quantity)
      setText(shown)
      setComplaint('')
    }
  }

  return {
    complaint,
    inputProps: {
      value: text,
      autoComplete: 'off',
      spellCheck: false,
      'aria-invalid': complaint !== '',
      [UNCOMMITTED]: text === shown ? undefined : '',
      onFocus: beginGesture,
      onChange: (event: { readonly target: { readonly value: string } }) => setText(event.target.value),
      onBlur: () => {
        fieldWork(commit().finally(endGesture))
      },
      onKeyDown: (event: KeyboardEvent<HTMLInputElement>) => {
        if (KEY_STEPS[event.key] !== undefined) beginGesture()
        onKeyDown(event)
      },
    },
  } as const
}
