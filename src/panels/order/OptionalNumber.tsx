// A plain number that may be left empty; beneath it what holds then, or what follows from it.

import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'

export function OptionalNumber({
  label,
  value,
  range,
  whole = false,
  hint = '',
  onSet,
}: {
  readonly label: string
  readonly value: number | undefined
  readonly range: readonly [least: number, greatest: number]
  readonly whole?: boolean
  readonly hint?: string
  /** Null where it is emptied. */
  readonly onSet: (value: number | null) => void
}) {
  const commit = numberCommit(label, range, whole, onSet)
  return (
    <div>
      <TextField
        numeric
        label={label}
        text={value === undefined ? '' : String(value)}
        emptyAllowed
        onCommit={(text) => {
          if (text !== '') return commit(text)
          onSet(null)
          return null
        }}
      />
      {hint !== '' && <p className="quiet order-hint">{hint}</p>}
    </div>
  )
}
