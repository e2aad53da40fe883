// Text of several lines. It is written while it is typed, so that a crash loses no more than the last moment; Escape brings
// back what was there when the field was entered, and one visit is one undo step.

import { useCallback, useEffect, useId, useRef, useState } from 'react'
import { beginGesture, endGesture } from '../../store/workbench'
import { UNCOMMITTED } from './fieldWork'

/** From a keystroke until it is written, together with all that came meanwhile. */
const WRITE_AFTER_MS = 400

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
  const [atEntry, setAtEntry] = useState(text)
  const [focused, setFocused] = useState(false)
  const latest = useRef({ typed, onCommit, given: text })
  latest.current = { ...latest.current, typed, onCommit }
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  const untouched = !focused || typed === atEntry
  // What the owner makes of the text, as where blank lines are dropped, must not change what is being typed.
  useEffect(() => {
    if (!untouched) return
    setTyped(text)
    setAtEntry(text)
    latest.current.given = text
  }, [text, untouched])
  const write = useCallback(() => {
    clearTimeout(timer.current)
    timer.current = undefined
    const { typed: now, given, onCommit: commit } = latest.current
    if (now === given) return
    latest.current.given = now
    commit(now)
  }, [])
  const writeSoon = () => {
    timer.current ??= setTimeout(write, WRITE_AFTER_MS)
  }
  // A page that is changed in the middle of a text keeps it.
  useEffect(
    () => () => {
      if (timer.current !== undefined) write()
    },
    [write],
  )
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={rows}
        maxLength={longest}
        value={typed}
        {...{ [UNCOMMITTED]: typed === atEntry ? undefined : '' }}
        onFocus={() => {
          setFocused(true)
          beginGesture()
        }}
        onChange={(event) => {
          setTyped(event.target.value)
          writeSoon()
        }}
        onBlur={() => {
          write()
          setFocused(false)
          endGesture()
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Escape') return
          setTyped(atEntry)
          writeSoon()
        }}
      />
    </div>
  )
}
