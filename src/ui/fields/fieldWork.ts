// Text that fields are still committing, so that a command waits for it: an expression is read by a library that loads late.

/** Marks an input that holds uncommitted text: undo there belongs to the text. */
export const UNCOMMITTED = 'data-uncommitted'

let underway: Promise<unknown> = Promise.resolve()

export function fieldWork(work: Promise<unknown>): void {
  underway = Promise.all([underway, work])
}

/** Commits the text of the focused field, and waits for every field. The focus stays. */
export async function settleFields(): Promise<void> {
  const focused = document.activeElement
  const isText = focused instanceof HTMLInputElement || focused instanceof HTMLTextAreaElement
  if (isText && focused.hasAttribute(UNCOMMITTED)) {
    focused.blur()
    focused.focus()
  }
  await underway
}
