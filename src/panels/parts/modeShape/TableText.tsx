// A table entered as text, a row a line; kept once it can be read.

import { useEffect, useId, useState } from 'react'
import { UNCOMMITTED } from '../../../ui/fields/fieldWork'
import './modeShape.css'

export function TableText({
  label,
  kept,
  said,
  onCommit,
}: {
  readonly label: string
  /** The table in place, as text. */
  readonly kept: string
  /** What the table means, below it. */
  readonly said: string
  /** Keeps the text's table, or returns what is wrong with it; empty where nothing is. */
  readonly onCommit: (text: string) => string
}) {
  const id = useId()
  const [text, setText] = useState(kept)
  const [complaint, setComplaint] = useState('')
  useEffect(() => setText(kept), [kept])
  return (
    <div className="field index-profile">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={5}
        spellCheck={false}
        value={text}
        {...{ [UNCOMMITTED]: text === kept ? undefined : '' }}
        aria-invalid={complaint !== ''}
        aria-describedby={`${id}-said`}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => setComplaint(text === kept ? '' : onCommit(text))}
      />
      <p id={`${id}-said`} className={complaint === '' ? 'quiet' : 'complaint'}>
        {complaint === '' ? said : complaint}
      </p>
    </div>
  )
}
