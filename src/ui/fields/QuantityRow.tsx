// A number in one row: its name with its source, its value, its ±. What is behind the source opens below the row.

import { type KeyboardEvent, memo, useEffect, useId, useState } from 'react'
import type { Quantity } from '../../model/quantity/quantity'
import { RULES } from '../../model/quantity/quantityRules'
import type { TypedQuantity } from '../../model/quantity/quantityText'
import { rewriteQuantity } from '../../model/quantity/rewriteQuantity'
import { unitLabel } from '../../model/quantity/units'
import { LIMITS } from '../../model/words/limits'
import { beginGesture, editProject, endGesture } from '../../store/workbench'
import { Complaint } from '../controls/Complaint'
import { UNCOMMITTED } from './fieldWork'
import { plusMinusText, readPlusMinus, steppedPlusMinus } from './plusMinus'
import { QuantityShape, writePlusMinus } from './QuantityDetails'
import type { QuantityFieldProps } from './QuantityField'
import { KEY_STEPS, numberText, stepIn, useQuantityInput } from './useQuantityInput'
import './quantityRow.css'

/** The source in a few words: where the number is from, and what is not usual about its tolerance. */
function sourceText(quantity: Quantity): string {
  const { provenance, tolerance, typed } = quantity
  return [
    ...(typed === undefined ? [] : [`= ${numberText(quantity)}`]),
    provenance,
    ...(tolerance === undefined || tolerance.distribution === 'uniform' ? [] : [tolerance.distribution]),
  ].join(', ')
}

function PlusMinusInput({ label, quantity, ruleName, find }: QuantityFieldProps) {
  const shown = plusMinusText(quantity)
  const [text, setText] = useState(shown)
  const [complaint, setComplaint] = useState('')
  const id = useId()
  useEffect(() => {
    setText(shown)
    setComplaint('')
  }, [shown])
  const rule = RULES[ruleName]
  /** Writes what is typed, changed by steps where keys are pressed. */
  const commit = (steps = 0) => {
    if (text === shown && steps === 0) return
    const read = readPlusMinus(text, rule.dimension, quantity.unit)
    if (read === null) {
      const unit = unitLabel(quantity.unit)
      setComplaint(
        `± of ${label} is "${text}"; must be a number${unit === '' ? '' : ` in ${unit}`}, 0 to ${LIMITS.plusMinus}`,
      )
      return
    }
    const from = text === shown ? (quantity.tolerance?.plusMinus ?? 0) : read
    const plusMinus = steppedPlusMinus(from, steps, stepIn(quantity, rule))
    writePlusMinus(find, plusMinus)
    setText(plusMinusText({ tolerance: { distribution: 'uniform', ...quantity.tolerance, plusMinus } }))
    setComplaint('')
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const steps = KEY_STEPS[event.key]
    if (steps !== undefined) {
      event.preventDefault()
      // A run of arrow keys is one step of undo.
      beginGesture()
      commit(steps)
    } else if (event.key === 'Enter') {
      endGesture()
      commit()
    } else if (event.key === 'Escape') {
      setText(shown)
      setComplaint('')
    }
  }
  return (
    <>
      <input
        className="quantity-plus-minus"
        aria-label={`± of ${label}`}
        aria-invalid={complaint !== ''}
        aria-describedby={complaint === '' ? undefined : id}
        placeholder="±"
        autoComplete="off"
        spellCheck={false}
        value={text}
        {...{ [UNCOMMITTED]: text === shown ? undefined : '' }}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => {
          commit()
          endGesture()
        }}
        onKeyDown={onKeyDown}
      />
      <Complaint id={id} text={complaint} />
    </>
  )
}

export const QuantityRow = memo(function QuantityRow({
  label,
  quantity,
  ruleName,
  find,
  note,
}: QuantityFieldProps & {
  /** One more line about the number, as how it is aligned. */
  readonly note?: string | undefined
}) {
  const id = useId()
  const [open, setOpen] = useState(false)
  const write = (read: TypedQuantity) =>
    editProject((draft) => {
      const target = find(draft)
      if (target !== undefined) rewriteQuantity(target, read)
    })
  const { complaint, inputProps } = useQuantityInput(quantity, ruleName, write, { keepsRefused: true })
  return (
    <div className="quantity-row">
      <span className="quantity-name">
        <label htmlFor={id}>{label}</label>
        <button
          type="button"
          className="quantity-source"
          aria-expanded={open}
          aria-label={`Source and tolerance of ${label}: ${sourceText(quantity)}`}
          onClick={() => setOpen(!open)}
        >
          {sourceText(quantity)}
        </button>
      </span>
      <input id={id} aria-describedby={complaint === '' ? undefined : `${id}-complaint`} {...inputProps} />
      <PlusMinusInput label={label} quantity={quantity} ruleName={ruleName} find={find} />
      <Complaint id={`${id}-complaint`} text={complaint} />
      {note !== undefined && <p className="quantity-note">{note}</p>}
      {open && (
        <div className="quantity-shape">
          <QuantityShape label={label} quantity={quantity} find={find} />
        </div>
      )}
    </div>
  )
})
