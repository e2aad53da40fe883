// The text of a field that is read on request and not as it is entered; it outlives the page.

import { useState } from 'react'
import { keepDraft, keptDraft } from '../../store/saving/drafts'

/** The text, `empty` at first and whenever it is set back to that. */
export function useDraft(name: string, empty: string): readonly [string, (text: string) => void] {
  const [text, setText] = useState(() => keptDraft(name) ?? empty)
  const set = (next: string) => {
    setText(next)
    keepDraft(name, next === empty ? null : next)
  }
  return [text, set]
}
