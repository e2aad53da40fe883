// A dimension on the drawing as an editable number. The same number stands in the table of the gap.

import { type KeyboardEvent, useEffect, useState } from 'react'
import { type Quantity, ruleBreach } from '../../model/quantity'
import { RULES, type RuleName } from '../../model/quantityRules'
import { readPlainQuantityText, readQuantityText, type TypedQuantity } from '../../model/quantityText'
import { quantityText } from '../fields/QuantityField'

export interface DimensionInputProps {
  readonly label: string
  readonly quantity: Quantity
  readonly ruleName: RuleName
  readonly onWrite: (read: TypedQuantity) => void
}

export function DimensionInput({ label, quantity, ruleName, onWrite }: DimensionInputProps) {
  const rule = RULES[ruleName]
  const shown = quantityText(quantity)
  const [text, setText] = useState(shown)
  const [complaint, setComplaint] = useState('')
  const reset = (to: string) => {
    setText(to)
    setComplaint('')
  }
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a new number replaces what is being typed
  useEffect(() => reset(shown), [shown])

  const commit = async () => {
    if (text === shown) return
    const read =
      readPlainQuantityText(text, rule, quantity.unit) ?? (await readQuantityText(text, rule, quantity.unit))
    if (read.ok) onWrite(read.value)
    else setComplaint(read.issues.map((issue) => issue.message).join(' '))
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') void commit()
    else if (event.key === 'Escape') reset(shown)
    else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault()
      const step = event.key === 'ArrowUp' ? rule.step : -rule.step
      const value = Number((quantity.value + step).toPrecision(12))
      const breach = ruleBreach(value, quantity.unit, rule)
      if (breach === null) onWrite({ value, unit: quantity.unit })
      else setComplaint(breach)
    }
  }
  return (
    <>
      <input
        className="dimension-input"
        aria-label={label}
        aria-invalid={complaint !== ''}
        value={text}
        size={Math.max(6, text.length)}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => void commit()}
        onKeyDown={onKeyDown}
      />
      {complaint !== '' && (
        <span className="complaint dimension-complaint" role="alert">
          {complaint}
        </span>
      )}
    </>
  )
}
