// The text of a field that is read on request or when the field is left, and not as it is entered; it outlives the page.

import { useEffect, useState } from 'react'
import { keepDraft, keptDraft } from '../../store/saving/drafts'

const SEPARATOR = '\u0000'

/** The text that was being written over `base`; null where there is none, or where it belongs to another. */
function textOver(name: string, base: string): string | null {
  const [itsBase, text] = keptDraft(name)?.split(SEPARATOR) ?? []
  return itsBase === base ? (text ?? null) : null
}

/** The text, `base` at first and again whenever that changes. */
export function useDraft(name: string, base: string): readonly [string, (text: string) => void] {
  const [draft, setDraft] = useState({ name, base, text: textOver(name, base) ?? base })
  const isOwn = draft.name === name && draft.base === base
  const text = isOwn ? draft.text : (textOver(name, base) ?? base)
  useEffect(() => keepDraft(name, text === base ? null : `${base}${SEPARATOR}${text}`), [name, base, text])
  return [text, (next) => setDraft({ name, base, text: next })]
}
