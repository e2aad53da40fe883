// Whether a media query holds, for what style sheets alone cannot arrange.

import { useCallback, useSyncExternalStore } from 'react'

/** Wide and high enough for panes side by side; below that a screen is one column. `app/frame.css` says the same. */
export const PANES_FIT = '(min-width: 1025px) and (min-height: 600px)'

export function useMedia(query: string): boolean {
  const subscribe = useCallback(
    (tell: () => void) => {
      const media = window.matchMedia(query)
      media.addEventListener('change', tell)
      return () => media.removeEventListener('change', tell)
    },
    [query],
  )
  return useSyncExternalStore(subscribe, () => window.matchMedia(query).matches)
}
