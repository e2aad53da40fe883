// Text that is not yet part of the project, such as a table before it is read. It is stored in this browser as it is typed, so that a
// reload or a closed tab loses nothing.

/** Longer texts are not written at every keystroke: they come from a file, which is still there. */
const LONGEST = 200_000

const keyOf = (name: string) => `modeseam-draft-${name}`

/** What was kept; null where nothing was, or where the browser keeps nothing. */
export function keptDraft(name: string): string | null {
  try {
    return localStorage.getItem(keyOf(name))
  } catch {
    return null // storage is blocked
  }
}

/** Keeps the text in place of what was kept; null keeps nothing. */
export function keepDraft(name: string, text: string | null): void {
  try {
    if (text === null || text.length > LONGEST) localStorage.removeItem(keyOf(name))
    else localStorage.setItem(keyOf(name), text)
  } catch {
    // storage is blocked or full: the field still holds the text
  }
}
