// A file of the app that does not come before it is released: what the page says until then can be looked at in peace.

import type { Page } from 'playwright-core'

/** Holds the file that matches from now on; the answer releases it. */
export async function hold(page: Page, file: string | RegExp): Promise<() => void> {
  let release = () => {}
  const released = new Promise<void>((resolve) => {
    release = resolve
  })
  await page.route(file, async (route) => {
    await released
    await route.continue()
  })
  return release
}
