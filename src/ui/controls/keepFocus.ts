// Where what had the focus is gone, such as a row that was deleted or a button that has done its work, the focus goes to what
// took its place in the same region. Without it a person who has no pointer would begin at the top of the page again.

const REGIONS = 'dialog[open], .pane, .verdict-strip, .app-main > .page, header'
const FOCUSABLE =
  'button:not(:disabled, [tabindex="-1"]), input:not(:disabled, [tabindex="-1"]), select:not(:disabled), textarea, summary, a[href], [tabindex="0"]'

interface Place {
  readonly own: HTMLElement
  readonly region: Element
  /** Among what can have the focus in the region. */
  readonly at: number
}

const stopsOf = (region: Element) =>
  [...region.querySelectorAll<HTMLElement>(FOCUSABLE)].filter((each) => each.checkVisibility())

function placeOf(own: HTMLElement): Place | null {
  const region = own.closest(REGIONS)
  return region === null ? null : { own, region, at: stopsOf(region).indexOf(own) }
}

/** Until `signal` ends. */
export function keepFocus(signal: AbortSignal): void {
  let last: Place | null = null
  const restore = () => {
    if (last === null || document.activeElement !== document.body) return
    const { own, region, at } = last
    if (own.checkVisibility() && !own.matches(':disabled')) return
    if (!region.isConnected) return
    const stops = stopsOf(region)
    const chosen = stops.find((each) => each.matches('[aria-current="true"]'))
    const next = chosen ?? stops[Math.min(Math.max(0, at), stops.length - 1)]
    next?.focus({ focusVisible: true } as FocusOptions)
  }
  document.addEventListener(
    'focusin',
    ({ target }) => {
      last = target instanceof HTMLElement ? placeOf(target) : null
    },
    { signal },
  )
  // A pointer on empty ground takes the focus away on purpose.
  document.addEventListener('pointerdown', () => (last = null), { signal, capture: true })
  // A button that is disabled loses the focus only when the next frame is made.
  let waiting = false
  const soon = () => {
    if (waiting || last === null) return
    waiting = true
    requestAnimationFrame(() =>
      setTimeout(() => {
        waiting = false
        restore()
      }),
    )
  }
  const watching = new MutationObserver(soon)
  watching.observe(document.body, { childList: true, attributeFilter: ['disabled'], subtree: true })
  signal.addEventListener('abort', () => watching.disconnect())
}
