// The empty field of a number that has not been entered yet, because no value may be assumed for it.

import type { Quantity } from '../../model/quantity/quantity'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import { readPlainQuantityText } from '../../model/quantity/quantityText'
import { TextField } from './TextField'

export function FirstQuantity({
  label,
  rule,
  onGiven,
}: {
  readonly label: string
  readonly rule: RuleName
  readonly onGiven: (quantity: Quantity) => void
}) {
  const commit = (text: string): string | null => {
    if (text === '') return null
    const read = readPlainQuantityText(text, RULES[rule])
    if (read === null) return `${label} is "${text}"; enter a number with its unit`
    if (!read.ok) return read.issues[0]?.message ?? ''
    onGiven({ value: read.value.value, unit: read.value.unit, provenance: 'estimate' })
    return null
  }
  return <TextField label={label} text="" emptyAllowed onCommit={commit} />
}
