// The state of saving. Ordinary saving is seen and not announced; what somebody has to know is.

import { needsAttention, SAVE_SENTENCES, useSaveState } from '../store/saving/saveState'

export function SaveLine() {
  const state = useSaveState()
  return (
    <span
      className="app-saved"
      role="status"
      aria-live={needsAttention(state) ? 'polite' : 'off'}
      data-attention={needsAttention(state)}
      title={SAVE_SENTENCES[state]}
    >
      {SAVE_SENTENCES[state]}
    </span>
  )
}
