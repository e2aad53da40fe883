// A number with its unit, typed, stepped by arrow keys, checked against its rule. What was typed stays when it is wrong.

import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react'
import type { Project } from '../../model/project'
import { type Quantity, ruleBreach } from '../../model/quantity'
import { type QuantityRule, RULES, type RuleName } from '../../model/quantityRules'
import { readPlainQuantityText, readQuantityText, type TypedQuantity } from '../../model/quantityText'
import { unitLabel } from '../../model/units'
import { beginGesture, editProject, endGesture } from '../../store/workbench'
import { QuantityDetails } from './QuantityDetails'
import './fields.css'

export interface QuantityFieldProps {
  readonly label: string
  readonly quantity: Quantity
  readonly ruleName: RuleName
  /** Finds the same quantity in the project being edited. */
  readonly find: (draft: Project) => Quantity | undefined
}

const PAGE_STEPS = 10
const KEY_STEPS: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowDown: -1,
  PageUp: PAGE_STEPS,
  PageDown: -PAGE_STEPS,
}

export function quantityText(quantity: Quantity): string {
  const value = Number(quantity.value.toPrecision(7)).toString().replace('-', '−')
  return quantity.typed ?? `${value} ${unitLabel(quantity.unit)}`.trim()
}

export function QuantityField({ label, quantity, ruleName, find }: QuantityFieldProps) {
  const rule: QuantityRule = RULES[ruleName]
  const id = useId()
  const shown = quantityText(quantity)
  const [text, setText] = useState(shown)
  const [complaint, setComplaint] = useState('')
  const committed = useRef(shown)

  useEffect(() => {
    committed.current = shown
    setText(shown)
    setComplaint('')
  }, [shown])

  const write = (read: TypedQuantity) => {
    editProject((draft) => {
      const target = find(draft)
      if (target === undefined) return
      target.value = read.value
      target.unit = read.unit
      target.typed = read.typed
    })
  }

  const commit = async (typed: string) => {
    if (typed === committed.current) return
    const read =
      readPlainQuantityText(typed, rule, quantity.unit) ??
      (await readQuantityText(typed, rule, quantity.unit))
    if (read.ok) write(read.value)
    else setComplaint(read.issues.map((issue) => issue.message).join(' '))
  }

  const step = (steps: number) => {
    const value = Number((quantity.value + steps * rule.step).toPrecision(12))
    const breach = ruleBreach(value, quantity.unit, rule)
    if (breach === null) write({ value, unit: quantity.unit })
    else setComplaint(breach)
  }

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const steps = KEY_STEPS[event.key]
    if (steps !== undefined) {
      event.preventDefault()
      step(steps)
    } else if (event.key === 'Enter') {
      void commit(text)
    } else if (event.key === 'Escape') {
      setText(committed.current)
      setComplaint('')
    }
  }

  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={text}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={complaint !== ''}
        aria-describedby={complaint === '' ? undefined : `${id}-complaint`}
        onFocus={beginGesture}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => {
          void commit(text).finally(endGesture)
        }}
        onKeyDown={onKeyDown}
      />
      {complaint !== '' && (
        <p className="complaint" id={`${id}-complaint`} role="alert">
          {complaint}
        </p>
      )}
      <QuantityDetails label={label} quantity={quantity} find={find} />
    </div>
  )
}
