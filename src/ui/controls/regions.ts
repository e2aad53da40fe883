// From one region of the screen to the next by one key: pages, verdicts, and each pane in its order.

const REGIONS = '.app-pages, .verdict-strip, .pane, .app-main > .page, .compare-page'
const FOCUSABLE =
  'button:not(:disabled, [tabindex="-1"]), input:not(:disabled, [tabindex="-1"]), select, textarea, summary, a[href], [tabindex="0"]'

/** Where a row is chosen in a list that has the focus as a whole, the list is the stop. */
const CHOSEN = '[aria-current="page"], [aria-current="true"]'

const isShown = (element: Element) => element.getClientRects().length > 0

/** Moves the focus into the next region, or with -1 into the one before; from the last on to the first. */
export function focusRegion(step: 1 | -1): void {
  const regions = [...document.querySelectorAll(REGIONS)].filter(isShown)
  const now = regions.findIndex((region) => region.contains(document.activeElement))
  for (let i = 1; i <= regions.length; i++) {
    const from = now < 0 && step < 0 ? 0 : now
    const region = regions[(from + step * i + regions.length * i) % regions.length]
    const stops = [...(region?.querySelectorAll<HTMLElement>(FOCUSABLE) ?? [])].filter(isShown)
    const first = stops.find((each) => each.matches(CHOSEN)) ?? stops[0]
    if (first === undefined) continue
    first.focus()
    return
  }
}
