// A new version of the app, offered and never forced.

import { useEffect, useState } from 'react'
import { watchUpdates } from '../store/updates'

export function UpdateOffer() {
  const [start, setStart] = useState<(() => void) | null>(null)
  useEffect(() => watchUpdates((begin) => setStart(() => begin)), [])
  if (start === null) return null
  return (
    <span className="app-update screen-only" role="status">
      A new version is available.
      <button type="button" onClick={start}>
        Reload now
      </button>
      <button type="button" onClick={() => setStart(null)}>
        Later
      </button>
    </span>
  )
}
