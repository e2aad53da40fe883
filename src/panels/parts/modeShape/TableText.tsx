// A table entered as text, a row a line; kept once it can be read.

import { useId, useState } from 'react'
import { UNCOMMITTED } from '../../../ui/fields/fieldWork'
import { useDraft } from '../../../ui/fields/useDraft'
import './modeShape.css'

export function TableText({
  draft,
  label,
  kept,
  said,
  read,
}: {
  /** Names the text among all that are not in the project yet. */
  readonly draft: string
  readonly label: string
  /** The table in place, as text. */
  readonly kept: string
  /** What the table means, below it. */
  readonly said: string
  /** What keeps the text's table, or what is wrong with it. */
  readonly read: (text: string) => string | (() => void)
}) {
  const id = useId()
  const [text, setText] = useDraft(draft, kept)
  // The text that was last left; one that a reload brings back was left with it.
  const [left, setLeft] = useState(text)
  const found = text === left && text !== kept ? read(text) : ''
  const complaint = typeof found === 'string' ? found : ''
  const leave = () => {
    setLeft(text)
    const keep = text === kept ? '' : read(text)
    if (typeof keep === 'function') keep()
  }
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
        onBlur={leave}
      />
      <p id={`${id}-said`} className={complaint === '' ? 'quiet' : 'complaint'}>
        {complaint === '' ? said : complaint}
      </p>
    </div>
  )
}
