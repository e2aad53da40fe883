// A line of text, committed on Enter or when left; Escape brings the old text back.

import { useEffect, useId, useState } from 'react'

const LONGEST = 200

export function TextField({
  label,
  text,
  onCommit,
}: {
  readonly label: string
  readonly text: string
  readonly onCommit: (text: string) => void
}) {
  const id = useId()
  const [typed, setTyped] = useState(text)
  useEffect(() => setTyped(text), [text])
  const commit = () => {
    const trimmed = typed.trim()
    if (trimmed === '') setTyped(text)
    else if (trimmed !== text) onCommit(trimmed)
  }
  return (
    <div className="field text-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={typed}
        maxLength={LONGEST}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit()
          else if (event.key === 'Escape') setTyped(text)
        }}
      />
    </div>
  )
}
