// The last moments in which a page can do something.

export interface PageEvents {
  /** `leaving` answers whether the person is to be asked first. Returns the function that stops watching. */
  readonly watch: (events: { readonly hidden: () => void; readonly leaving: () => boolean }) => () => void
}

export const BROWSER_PAGE: PageEvents = {
  watch: ({ hidden, leaving }) => {
    const stop = new AbortController()
    const { signal } = stop
    const whenHidden = () => {
      if (document.visibilityState === 'hidden') hidden()
    }
    document.addEventListener('visibilitychange', whenHidden, { signal })
    window.addEventListener('pagehide', hidden, { signal })
    window.addEventListener(
      'beforeunload',
      (event) => {
        if (leaving()) event.preventDefault()
      },
      { signal },
    )
    return () => stop.abort()
  },
}
