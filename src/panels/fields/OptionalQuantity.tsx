// A number that a part may lack: added with a first value, and taken away again.

import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import { editProject } from '../../store/workbench'
import { QuantityField } from './QuantityField'

/** A label inside a sentence: its first letter small, abbreviations as they are. */
const withinText = (label: string) => label.charAt(0).toLowerCase() + label.slice(1)

export function OptionalQuantity<Field extends string>({
  label,
  field,
  rule,
  quantity,
  first,
  find,
}: {
  readonly label: string
  readonly field: Field
  readonly rule: RuleName
  readonly quantity: Quantity | undefined
  readonly first: () => Quantity
  /** The owner of the field, in the project being edited. */
  readonly find: (draft: Project) => { [F in Field]?: Quantity | undefined } | undefined
}) {
  const set = (value: Quantity | undefined) =>
    editProject((draft) => {
      const owner = find(draft)
      if (owner !== undefined) owner[field] = value
    })
  if (quantity === undefined) {
    return (
      <div className="field">
        <button type="button" onClick={() => set(first())}>
          State {withinText(label)}
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
        find={(draft) => find(draft)?.[field]}
      />
      <button type="button" onClick={() => set(undefined)}>
        Drop {withinText(label)}
      </button>
    </div>
  )
}
