// What had the focus gets it back where it was only moved, such as a column that now ranks higher. Where it is gone, such as a row
// that was deleted or a button that has done its work, the focus goes to what took its place in the same region; where another
// page has come, to the name of that page. Without it a person who has no pointer would begin at the top of the page again.

const REGIONS = 'dialog[open], .pane, .verdict-strip, .app-main > .page, .compare-page, header'
const FOCUSABLE =
  'button:not(:disabled, [tabindex="-1"]), input:not(:disabled, [tabindex="-1"]), select:not(:disabled), textarea, summary, a[href], [tabindex="0"]'

interface Position {
  readonly own: HTMLElement
  readonly region: Element
  /** Among what can have the focus in the region. */
  readonly at: number
}

const stopsOf = (region: Element) =>
  [...region.querySelectorAll<HTMLElement>(FOCUSABLE)].filter((each) => each.checkVisibility())

function positionOf(own: HTMLElement): Position | null {
  const region = own.closest(REGIONS)
  return region === null ? null : { own, region, at: stopsOf(region).indexOf(own) }
}

/** What is now where the focus was: a pane that was built anew, such as one that is expanded, has the same name. */
function successorOf({ region, at }: Position): HTMLElement | null | undefined {
  const now = region.isConnected
    ? region
    : document.querySelector(`[data-pane="${region.getAttribute('data-pane') ?? ''}"]`)
  if (now === null) return document.querySelector<HTMLElement>('.app-pages [aria-current]')
  const stops = stopsOf(now)
  const chosen = stops.find((each) => each.matches('[aria-current="true"]'))
  return chosen ?? stops[Math.min(Math.max(0, at), stops.length - 1)]
}

/** Until `signal` ends. */
export function keepFocus(signal: AbortSignal): void {
  let last: Position | null = null
  const restore = () => {
    if (last === null || document.activeElement !== document.body) return
    const { own } = last
    const isThere = own.checkVisibility() && !own.matches(':disabled')
    const next = isThere ? own : successorOf(last)
    next?.focus({ focusVisible: true } as FocusOptions)
  }
  document.addEventListener(
    'focusin',
    ({ target }) => {
      last = target instanceof HTMLElement ? positionOf(target) : null
    },
    { signal },
  )
  // F6 may come before the next frame, and goes on from where the focus belongs. Tab must not: at the end of the page it leaves it.
  document.addEventListener('keydown', ({ key }) => key === 'F6' && restore(), { signal, capture: true })
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
