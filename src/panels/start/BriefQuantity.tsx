// A number of the brief, with one sentence on what it decides.

import { useId } from 'react'
import type { Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import { rewriteQuantity } from '../../model/quantity/rewriteQuantity'
import { Complaint } from '../../ui/controls/Complaint'
import { useQuantityInput } from '../../ui/fields/useQuantityInput'

export function BriefQuantity({
  label,
  quantity,
  ruleName,
  onChange,
}: {
  readonly label: string
  readonly quantity: Quantity
  readonly ruleName: RuleName
  readonly onChange: (quantity: Quantity) => void
}) {
  const id = useId()
  const { complaint, inputProps } = useQuantityInput(
    quantity,
    ruleName,
    (read) => {
      const next = structuredClone(quantity)
      rewriteQuantity(next, read)
      onChange(next)
    },
    { keepsRefused: false },
  )
  return (
    <div className="brief-input brief-number">
      <label htmlFor={id}>{label}</label>
      <input id={id} aria-describedby={complaint === '' ? undefined : `${id}-complaint`} {...inputProps} />
      <Complaint id={`${id}-complaint`} text={complaint} />
    </div>
  )
}
