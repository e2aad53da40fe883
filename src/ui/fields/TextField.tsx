// A line of text, committed on Enter or when left; Escape brings the old text back.
// A number that has no unit is one too, set flush right like every number.
// `onCommit` may answer with a complaint: it is shown, and the text stays as typed.

import { useEffect, useId, useState } from 'react'

import { Complaint } from '../controls/Complaint'
import { UNCOMMITTED } from './fieldWork'

const LONGEST = 200

export function TextField({
  label,
  text,
  onCommit,
  title = false,
  numeric = false,
  emptyAllowed = false,
  longest = LONGEST,
  placeholder,
}: {
  readonly label: string
  readonly text: string
  /** True for the name on top of the page, whose label is heard but not seen. */
  readonly title?: boolean
  readonly numeric?: boolean
  /** True where the text may be taken away. */
  readonly emptyAllowed?: boolean
  readonly longest?: number
  /** What an empty field means. */
  readonly placeholder?: string
  // biome-ignore lint/suspicious/noConfusingVoidType: most callers have nothing to complain about
  readonly onCommit: (text: string) => string | null | void
}) {
  const id = useId()
  const [typed, setTyped] = useState(text)
  const [complaint, setComplaint] = useState('')
  const [commits, setCommits] = useState(0)
  // What is accepted is shown as the project has it, also where that has not changed: "5.0" becomes 5.
  // biome-ignore lint/correctness/useExhaustiveDependencies: a commit is a reason to read the text again
  useEffect(() => {
    setTyped(text)
    setComplaint('')
  }, [text, commits])
  const commit = () => {
    const trimmed = typed.trim()
    const isLeft = trimmed === text || (trimmed === '' && !emptyAllowed)
    const refused = (isLeft ? null : onCommit(trimmed)) ?? ''
    setComplaint(refused)
    if (refused === '') setCommits((count) => count + 1)
  }
  return (
    <div className={title ? 'field text-field title-field' : numeric ? 'field' : 'field text-field'}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={typed}
        inputMode={numeric ? 'decimal' : undefined}
        maxLength={longest}
        placeholder={placeholder}
        aria-invalid={complaint !== ''}
        {...{ [UNCOMMITTED]: typed === text ? undefined : '' }}
        aria-describedby={complaint === '' ? undefined : `${id}-complaint`}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') {
            // A dialog that the entry closes gives the focus to a button, which the same key would press.
            if (event.currentTarget.form === null) event.preventDefault()
            commit()
          } else if (event.key === 'Escape') {
            setTyped(text)
            setComplaint('')
          }
        }}
      />
      <Complaint id={`${id}-complaint`} text={complaint} />
    </div>
  )
}
