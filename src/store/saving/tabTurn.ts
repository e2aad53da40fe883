// Of several tabs one saves: two that saved over each other would lose one's work without a word. The others wait, and the
// next takes its turn when the one before is closed.

const LOCK = 'modeseam-autosave'

/** The part of the browser's lock manager that is used. */
export interface Locks {
  readonly request: (
    name: string,
    options: { readonly ifAvailable?: boolean; readonly signal?: AbortSignal },
    work: (lock: unknown) => Promise<boolean>,
  ) => Promise<boolean>
}

function ended(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) resolve()
    else signal.addEventListener('abort', () => resolve(), { once: true })
  })
}

/**
 * Calls `begin` when this tab's turn comes, with whether it had to wait, and ends what it began with the signal.
 * `waiting` is called if another tab has the turn. Without locks this cannot be known, and the turn is granted at once.
 */
export async function takeTurn(
  locks: Locks | undefined,
  signal: AbortSignal,
  begin: (waited: boolean) => Promise<() => void>,
  waiting: () => void,
): Promise<void> {
  const hold = async (waited: boolean) => {
    if (signal.aborted) return true
    const end = await begin(waited)
    await ended(signal)
    end()
    return true
  }
  if (locks === undefined) {
    await hold(false)
    return
  }
  let isFirst: boolean
  try {
    isFirst = await locks.request(LOCK, { ifAvailable: true }, async (lock) =>
      lock === null ? false : hold(false),
    )
  } catch (error) {
    if (!(error instanceof DOMException)) throw error
    await hold(false) // a page that may not use locks
    return
  }
  if (isFirst || signal.aborted) return
  waiting()
  try {
    await locks.request(LOCK, { signal }, () => hold(true))
  } catch (error) {
    if (!signal.aborted) throw error
  }
}
