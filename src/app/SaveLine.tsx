// The state of saving. Ordinary saving is one line of the header, seen and not announced; what the user has to know gets a separate row
// below it, with space for its sentence and the command that helps.

import { type Command, commandOf } from '../store/commands'
import { needsAttention, REMEDIES, SAVE_SENTENCES, useSaveState } from '../store/saving/saveState'

export function SaveLine() {
  const state = useSaveState()
  const attention = needsAttention(state)
  return (
    <span className="app-saved" data-attention={attention} title={SAVE_SENTENCES[state]}>
      {attention ? 'Not autosaved' : SAVE_SENTENCES[state]}
    </span>
  )
}

export function SaveNotice({ run }: { readonly run: (command: Command) => void }) {
  const state = useSaveState()
  const remedy = commandOf(REMEDIES[state] ?? 'save')
  // Always there, so that what appears in it is announced.
  return (
    <div role="status" className="screen-only">
      {needsAttention(state) && (
        <p className="app-unsaved">
          {SAVE_SENTENCES[state]}
          <button type="button" onClick={() => run(remedy)}>
            {remedy.label}
          </button>
        </p>
      )}
    </div>
  )
}
