// Text of several lines, committed when left; Escape brings the old text back.

import { useEffect, useId, useState } from 'react'

export function TextArea({
  label,
  text,
  longest,
  rows = 3,
  onCommit,
}: {
  readonly label: string
  readonly text: string
  readonly longest: number
  readonly rows?: number
  readonly onCommit: (text: string) => void
}) {
  const id = useId()
  const [typed, setTyped] = useState(text)
  useEffect(() => setTyped(text), [text])
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={rows}
        maxLength={longest}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => {
          if (typed !== text) onCommit(typed)
        }}
        onKeyDown={(event) => {
          if (event.key === 'Escape') setTyped(text)
        }}
      />
    </div>
  )
}
