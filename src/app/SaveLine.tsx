// The state of saving. Ordinary saving is one line of the header, seen and not announced; what the user has to know gets a separate row below it, with space for its sentence.

import { needsAttention, SAVE_SENTENCES, useSaveState } from '../store/saving/saveState'

export function SaveLine() {
  const state = useSaveState()
  const attention = needsAttention(state)
  return (
    <span className="app-saved" data-attention={attention} title={SAVE_SENTENCES[state]}>
      {attention ? 'Not autosaved' : SAVE_SENTENCES[state]}
    </span>
  )
}

export function SaveNotice() {
  const state = useSaveState()
  // Always there, so that what appears in it is announced.
  return (
    <div role="status" className="screen-only">
      {needsAttention(state) && <p className="app-unsaved">{SAVE_SENTENCES[state]}</p>}
    </div>
  )
}
