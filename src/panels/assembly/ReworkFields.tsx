// What becomes of an assembly that a check rejects: scrapped, or sent back to an earlier step a few times.

import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import { ASSEMBLY_LIMITS } from '../../model/words/assembly'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'

const FIRST = { repeats: 1, cost: 0 } as const

export function ReworkFields({
  sequence,
  step,
  edit,
}: {
  readonly sequence: AssemblySequence
  readonly step: AssemblyStep
  readonly edit: (recipe: (own: AssemblyStep) => void) => void
}) {
  const { rework } = step
  const before = sequence.steps.slice(
    0,
    sequence.steps.findIndex(({ id }) => id === step.id),
  )
  const number = (name: 'repeats' | 'cost', label: string, range: readonly [number, number]) => (
    <TextField
      numeric
      label={label}
      text={String(rework?.[name] ?? FIRST[name])}
      onCommit={numberCommit(label, range, name === 'repeats', (value) =>
        edit((own) => {
          if (own.rework !== undefined) own.rework[name] = value
        }),
      )}
    />
  )
  return (
    <>
      <ChoiceField
        label="Rejected assemblies"
        value={rework?.fromId ?? ''}
        choices={[
          { value: '', label: 'are scrapped' },
          ...before.map(({ id, name }) => ({ value: id, label: `repeat from ${name}` })),
        ]}
        onChoose={(fromId) =>
          edit((own) => {
            own.rework = fromId === '' ? undefined : { ...FIRST, ...own.rework, fromId }
          })
        }
      />
      {rework !== undefined && (
        <>
          {number('repeats', 'Repeats allowed', [1, ASSEMBLY_LIMITS.repeats[1]])}
          {number('cost', 'Cost per repeat', ASSEMBLY_LIMITS.amount)}
        </>
      )}
    </>
  )
}
