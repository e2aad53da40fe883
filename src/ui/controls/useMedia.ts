// Whether a media query holds, for what style sheets alone cannot arrange.

import { useCallback, useSyncExternalStore } from 'react'

/** Wide and high enough for panes side by side; below that a screen is one column. `app/frame.css` says the same. */
export const PANES_FIT = '(min-width: 1025px) and (min-height: 600px)'

/** Each query is made once: to make one in every frame of a drag takes longer than to ask it. */
const asked = new Map<string, MediaQueryList>()

function mediaOf(query: string): MediaQueryList {
  const media = asked.get(query) ?? window.matchMedia(query)
  asked.set(query, media)
  return media
}

export function useMedia(query: string): boolean {
  const subscribe = useCallback(
    (tell: () => void) => {
      const media = mediaOf(query)
      media.addEventListener('change', tell)
      return () => media.removeEventListener('change', tell)
    },
    [query],
  )
  return useSyncExternalStore(subscribe, () => mediaOf(query).matches)
}
