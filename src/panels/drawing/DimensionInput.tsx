// A dimension on the drawing as an editable number. The same number is in the table of the gap.

import { useId } from 'react'
import type { Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { TypedQuantity } from '../../model/quantity/quantityText'
import { useQuantityInput } from '../../ui/fields/useQuantityInput'

interface DimensionInputProps {
  readonly label: string
  readonly quantity: Quantity
  readonly ruleName: RuleName
  readonly onWrite: (read: TypedQuantity) => void
}

const LEAST_CHARACTERS = 6

export function DimensionInput({ label, quantity, ruleName, onWrite }: DimensionInputProps) {
  const id = useId()
  const { complaint, inputProps } = useQuantityInput(quantity, ruleName, onWrite, { keepsRefused: false })
  return (
    <>
      <input
        className="dimension-input"
        aria-label={label}
        aria-describedby={complaint === '' ? undefined : id}
        size={Math.max(LEAST_CHARACTERS, inputProps.value.length)}
        {...inputProps}
      />
      {complaint !== '' && (
        <span className="complaint dimension-complaint" id={id} role="alert">
          {complaint}
        </span>
      )}
    </>
  )
}
