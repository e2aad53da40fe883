// One of several named things.

import { type Ref, useId } from 'react'

interface Choice {
  readonly value: string
  readonly label: string
}

export function ChoiceField({
  label,
  value,
  choices,
  onChoose,
  ref,
}: {
  readonly label: string
  readonly value: string
  readonly choices: readonly Choice[]
  readonly onChoose: (value: string) => void
  /** For a focus that comes back to it. */
  readonly ref?: Ref<HTMLSelectElement>
}) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select ref={ref} id={id} value={value} onChange={(event) => onChoose(event.target.value)}>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </div>
  )
}
