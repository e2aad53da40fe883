// Values that figures of second rank are drawn from: they follow when the browser is at rest, so that a drag keeps
// its frame for the numbers, the drawing and the map.

import { useEffect, useRef, useState } from 'react'

/** Even without rest a figure follows this often. */
const LATEST_AFTER_MS = 150
/** The wait where the browser does not report when it is idle. */
const GUESSED_REST_MS = 50

const ask: (run: () => void) => void =
  'requestIdleCallback' in globalThis
    ? (run) => requestIdleCallback(run, { timeout: LATEST_AFTER_MS })
    : (run) => setTimeout(run, GUESSED_REST_MS)

/** Everything that waits for the same rest, so that it is drawn at once. */
const waitingRuns: (() => void)[] = []

function whenAtRest(run: () => void): void {
  waitingRuns.push(run)
  if (waitingRuns.length > 1) return
  ask(() => {
    for (const each of waitingRuns.splice(0)) each()
  })
}

/** The value as it was a moment ago; the newest one is shown after the frame of the change has been painted. */
export function useAfterFrame<T>(value: T): T {
  const [shown, setShown] = useState(value)
  const latest = useRef(value)
  const waiting = useRef(false)
  useEffect(() => {
    latest.current = value
    if (waiting.current || shown === value) return
    waiting.current = true
    whenAtRest(() => {
      waiting.current = false
      setShown(() => latest.current)
    })
  }, [value, shown])
  return shown
}
