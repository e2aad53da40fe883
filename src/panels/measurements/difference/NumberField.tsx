// A bare number that belongs to the page and not to the project.

import { useEffect, useId, useState } from 'react'
import { Complaint } from '../../../ui/controls/Complaint'

export function NumberField({
  label,
  value,
  least,
  onSet,
}: {
  readonly label: string
  readonly value: number | null
  readonly least: number
  /** Null where the text is not a number in the allowed range. */
  readonly onSet: (value: number | null) => void
}) {
  const id = useId()
  const [text, setText] = useState(value === null ? '' : String(value))
  const [complaint, setComplaint] = useState('')
  useEffect(() => {
    if (value !== null) setText(String(value))
  }, [value])
  const commit = () => {
    const read = Number(text.trim().replace(',', '.'))
    const good = text.trim() !== '' && Number.isFinite(read) && read >= least
    setComplaint(good || text.trim() === '' ? '' : `${label} is "${text}"; must be a number from ${least}`)
    onSet(good ? read : null)
  }
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={text}
        inputMode="decimal"
        aria-invalid={complaint !== ''}
        aria-describedby={complaint === '' ? undefined : `${id}-complaint`}
        onChange={(event) => setText(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit()
        }}
      />
      <Complaint id={`${id}-complaint`} text={complaint} />
    </div>
  )
}
