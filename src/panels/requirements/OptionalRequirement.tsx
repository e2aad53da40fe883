// A requirement that may be left open: it is added with a first value, and taken away again.

import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import type { Requirements } from '../../model/requirements'
import { editProject } from '../../store/workbench'
import { QuantityField } from '../fields/QuantityField'

export type OptionalField =
  | 'wavelengthMin'
  | 'wavelengthMax'
  | 'returnLoss'
  | 'extinctionRatio'
  | 'polarisationDependentLoss'
  | 'powerIn'
  | 'faceIrradiance'

export function OptionalRequirement({
  label,
  field,
  rule,
  first,
  requirements,
}: {
  readonly label: string
  readonly field: OptionalField
  readonly rule: RuleName
  readonly first: () => Quantity
  readonly requirements: Requirements
}) {
  const quantity = requirements[field]
  const set = (value: Quantity | undefined) =>
    editProject((draft) => {
      draft.requirements[field] = value
    })
  if (quantity === undefined) {
    return (
      <div className="field">
        <button type="button" onClick={() => set(first())}>
          Require: {label.toLowerCase()}
        </button>
      </div>
    )
  }
  return (
    <div>
      <QuantityField
        label={label}
        quantity={quantity}
        ruleName={rule}
        find={(draft: Project) => draft.requirements[field]}
      />
      <button type="button" onClick={() => set(undefined)}>
        Leave {label.toLowerCase()} open
      </button>
    </div>
  )
}
