// What the candidate costs, in the engineer's own figures; the comparison and the cost ceiling read them.

import type { Candidate } from '../../model/schema/candidate'
import type { Cost } from '../../model/schema/cost'
import { editProject } from '../../store/workbench'
import { TextField } from '../../ui/fields/TextField'

const MOST = 1e9
const FIELDS: readonly { readonly field: keyof Cost; readonly label: string }[] = [
  { field: 'perChannel', label: 'Cost for every channel' },
  { field: 'perModule', label: 'Cost for a module, once' },
]

export function CostFields({ candidate }: { readonly candidate: Candidate }) {
  const commit = (field: keyof Cost, label: string) => (text: string) => {
    const amount = Number(text.replace(',', '.'))
    if (!(amount >= 0 && amount <= MOST)) return `${label} is "${text}"; must be 0 to ${MOST}`
    editProject((draft) => {
      const own = draft.candidates.find((each) => each.id === candidate.id)
      if (own === undefined) return
      const cost = { perChannel: 0, perModule: 0, ...own.cost, [field]: amount }
      // Nothing stated is not the same as costing nothing.
      own.cost = cost.perChannel === 0 && cost.perModule === 0 ? undefined : cost
    })
    return null
  }
  return (
    <fieldset className="field-grid">
      <legend>Cost, in your own currency</legend>
      {FIELDS.map(({ field, label }) => (
        <TextField
          key={field}
          label={label}
          text={String(candidate.cost?.[field] ?? 0)}
          onCommit={commit(field, label)}
        />
      ))}
    </fieldset>
  )
}
