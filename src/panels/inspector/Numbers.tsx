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
  readonly owner: { readonly [F in Field]: Quantity }
  readonly find: (draft: Project) => { [F in Field]: Quantity } | undefined
  readonly noteOf?: (field: Field) => string | undefined
}) {
  return specs.map(({ field, label, rule }) => (
    <QuantityRow
      key={field}
      label={`${prefix}${label}`}
      quantity={owner[field]}
      ruleName={rule}
      find={(draft) => find(draft)?.[field]}
      note={noteOf(field)}
    />
  ))
}
