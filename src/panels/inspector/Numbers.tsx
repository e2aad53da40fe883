// Several numbers of one owner, a row each.

import type { Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Project } from '../../model/schema/project'
import { QuantityRow } from '../../ui/fields/QuantityRow'

export interface Spec<Field extends string> {
  readonly field: Field
  readonly label: string
  readonly rule: RuleName
}

export function Numbers<Field extends string>({
  specs,
  owner,
  find,
  prefix = '',
  noteOf = () => undefined,
}: {
  /** Stands before every label, so that numbers of two lenses are told apart. */
  readonly prefix?: string
  readonly specs: readonly Spec<Field>[]
  /** A number that it does not have has no row. */
  readonly owner: { readonly [F in Field]?: Quantity | undefined }
  readonly find: (draft: Project) => { [F in Field]?: Quantity | undefined } | undefined
  readonly noteOf?: (field: Field) => string | undefined
}) {
  return specs.map(({ field, label, rule }) => {
    const quantity = owner[field]
    return quantity === undefined ? null : (
      <QuantityRow
        key={field}
        label={`${prefix}${label}`}
        quantity={quantity}
        ruleName={rule}
        find={(draft) => find(draft)?.[field]}
        note={noteOf(field)}
      />
    )
  })
}
