// Time, for what waits: the browser's, or a test's that moves only on request.

export interface Clock {
  /** Milliseconds since whenever. */
  readonly now: () => number
  /** Calls back after so many milliseconds. Returns the function that prevents it. */
  readonly after: (milliseconds: number, act: () => void) => () => void
}

export const BROWSER_CLOCK: Clock = {
  now: () => performance.now(),
  after: (milliseconds, act) => {
    const timer = setTimeout(act, milliseconds)
    return () => clearTimeout(timer)
  },
}
