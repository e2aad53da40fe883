// A number with its unit, its tolerance and its provenance.

import { useId } from 'react'
import type { Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { TypedQuantity } from '../../model/quantity/quantityText'
import { rewriteQuantity } from '../../model/quantity/rewriteQuantity'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { Complaint } from '../controls/Complaint'
import { QuantityDetails } from './QuantityDetails'
import { useQuantityInput } from './useQuantityInput'

export interface QuantityFieldProps {
  readonly label: string
  readonly quantity: Quantity
  readonly ruleName: RuleName
  /** Finds the same quantity in the project being edited. */
  readonly find: (draft: Project) => Quantity | undefined
}

export function QuantityField({ label, quantity, ruleName, find }: QuantityFieldProps) {
  const id = useId()
  const write = (read: TypedQuantity) =>
    editProject((draft) => {
      const target = find(draft)
      if (target !== undefined) rewriteQuantity(target, read)
    })
  const { complaint, inputProps } = useQuantityInput(quantity, ruleName, write, { keepsRefused: true })
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input id={id} aria-describedby={complaint === '' ? undefined : `${id}-complaint`} {...inputProps} />
      <Complaint id={`${id}-complaint`} text={complaint} />
      <QuantityDetails label={label} quantity={quantity} find={find} />
    </div>
  )
}
