// What each page shows in detail, so that the address can name it: an item of the page, and a tab of that item. A page whose
// state is loaded late registers then, and then receives what the address has requested.

import type { Page } from '../view'

export interface Detail {
  readonly item?: string
  readonly tab?: string
}

interface PageDetail {
  readonly read: () => Detail
  readonly show: (detail: Detail) => void
  /** Calls back whenever `read` may have changed. */
  readonly watch: (tell: () => void) => void
}

const details = new Map<Page, PageDetail>()
const asked = new Map<Page, Detail>()
let tellAll = () => {}

export function registerDetail(page: Page, detail: PageDetail): void {
  details.set(page, detail)
  const wanted = asked.get(page)
  if (wanted !== undefined) detail.show(wanted)
  asked.delete(page)
  detail.watch(() => tellAll())
}

/** What the page shows, or will show once it is loaded. */
export function detailOf(page: Page): Detail {
  return details.get(page)?.read() ?? asked.get(page) ?? {}
}

export function showDetail(page: Page, detail: Detail): void {
  const known = details.get(page)
  if (known === undefined) asked.set(page, detail)
  else known.show(detail)
}

/** Calls back whenever the detail of any page may have changed. */
export function watchDetails(tell: () => void): () => void {
  tellAll = tell
  return () => {
    tellAll = () => {}
  }
}
