// A number that may be left open: added with a first value, and taken away again. The focus stays in its place, on the
// field that has come or on the button that is back.

import { useLayoutEffect, useRef, useState } from 'react'
import type { Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { FirstQuantity } from './FirstQuantity'
import { QuantityRow } from './QuantityRow'

/** A label inside a sentence: its first letter small, abbreviations as they are. */
const withinText = (label: string) => label.charAt(0).toLowerCase() + label.slice(1)

export function OptionalQuantity<Field extends string>({
  label,
  field,
  rule,
  quantity,
  first,
  find,
  words: [add, drop] = ['Add', 'Remove'],
  whole = false,
}: {
  readonly label: string
  readonly field: Field
  readonly rule: RuleName
  readonly quantity: Quantity | undefined
  /** The value that it is added with; null where it must be typed, because nothing is assumed. */
  readonly first: (() => Quantity) | null
  /** The owner of the field, in the project being edited. */
  readonly find: (draft: Project) => { [F in Field]?: Quantity | undefined } | undefined
  /** What is said on the buttons before the label. */
  readonly words?: readonly [add: string, drop: string]
  /** True where the words are whole sentences that need no label behind them. */
  readonly whole?: boolean
}) {
  const holder = useRef<HTMLDivElement>(null)
  const pressed = useRef(false)
  const stated = quantity !== undefined
  const [asking, setAsking] = useState(false)
  useLayoutEffect(() => {
    if (!pressed.current) return
    pressed.current = false
    const next = holder.current?.querySelector<HTMLElement>(stated || asking ? 'input' : 'button')
    next?.focus()
    if (next instanceof HTMLInputElement) next.select()
  }, [stated, asking])
  const set = (value: Quantity | undefined) => {
    pressed.current = true
    setAsking(false)
    editProject((draft) => {
      const owner = find(draft)
      if (owner !== undefined) owner[field] = value
    })
  }
  return (
    <div ref={holder} className={stated ? undefined : 'field'}>
      {stated && (
        <QuantityRow
          label={label}
          quantity={quantity}
          ruleName={rule}
          find={(draft) => find(draft)?.[field]}
        />
      )}
      {!stated && asking && <FirstQuantity label={label} rule={rule} onGiven={set} />}
      {stated || asking ? (
        <button type="button" className="subtle" onClick={() => set(undefined)}>
          {drop}
          {!whole && <span className="drop-what"> {withinText(label)}</span>}
        </button>
      ) : (
        <button
          type="button"
          className="subtle"
          onClick={() => {
            pressed.current = true
            if (first === null) setAsking(true)
            else set(first())
          }}
        >
          {whole ? add : `${add} ${withinText(label)}`}
        </button>
      )}
    </div>
  )
}
