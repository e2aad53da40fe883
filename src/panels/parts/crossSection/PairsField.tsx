// A table of two columns, entered as text; kept once it can be read.

import { useEffect, useId, useState } from 'react'
import { type PairNames, pairsText, readPairs } from './pairsText'
import '../modeShape/modeShape.css'

export function PairsField({
  label,
  names,
  first,
  second,
  said,
  onCommit,
}: {
  readonly label: string
  readonly names: PairNames
  readonly first: readonly number[]
  readonly second: readonly number[]
  /** What the table means, below it. */
  readonly said: string
  /** Keeps the columns, or returns what is wrong with them. Without any row the table is given up. */
  readonly onCommit: (first: number[], second: number[]) => string | null
}) {
  const id = useId()
  const kept = pairsText(first, second)
  const [text, setText] = useState(kept)
  const [complaint, setComplaint] = useState('')
  useEffect(() => setText(kept), [kept])
  const commit = () => {
    if (text === kept) return setComplaint('')
    const read = readPairs(text, names)
    setComplaint(typeof read === 'string' ? read : (onCommit(read.first, read.second) ?? ''))
  }
  return (
    <div className="field index-profile">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={5}
        spellCheck={false}
        value={text}
        aria-invalid={complaint !== ''}
        aria-describedby={`${id}-said`}
        onChange={(event) => setText(event.target.value)}
        onBlur={commit}
      />
      <p id={`${id}-said`} className={complaint === '' ? 'quiet' : 'complaint'}>
        {complaint === '' ? said : complaint}
      </p>
    </div>
  )
}
