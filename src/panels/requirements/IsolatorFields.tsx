// The isolator that a design must hold, or none.

import { forgetRequirement } from '../../model/project/requirementGroups'
import { quantityOf } from '../../model/quantity/quantity'
import type { Requirements } from '../../model/schema/requirements'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityRow } from '../../ui/fields/QuantityRow'
import { editRequirements } from './editRequirements'

export function IsolatorFields({ requirements }: { readonly requirements: Requirements }) {
  const { isolator } = requirements
  if (isolator === undefined) {
    return (
      <div className="field">
        <button
          type="button"
          className="subtle"
          onClick={() =>
            editRequirements((own) => {
              own.isolator = { length: quantityOf(3, 'mm'), aperture: quantityOf(1, 'mm') }
            })
          }
        >
          Add isolator
        </button>
      </div>
    )
  }
  return (
    <>
      <QuantityRow
        label="Isolator length"
        quantity={isolator.length}
        ruleName="stretch"
        find={(draft) => draft.requirements.isolator?.length}
      />
      <QuantityRow
        label="Isolator clear aperture"
        quantity={isolator.aperture}
        ruleName="aperture"
        find={(draft) => draft.requirements.isolator?.aperture}
      />
      <OptionalQuantity
        label="Minimum isolation"
        field="isolation"
        rule="returnLoss"
        quantity={isolator.isolation}
        first={() => quantityOf(30, 'dB')}
        find={(draft) => draft.requirements.isolator}
      />
      <div className="field">
        <button
          type="button"
          className="subtle"
          onClick={() =>
            editRequirements((own) => {
              own.isolator = undefined
              forgetRequirement(own, 'isolator')
            })
          }
        >
          Remove isolator
        </button>
      </div>
    </>
  )
}
