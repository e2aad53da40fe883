// Every screen by Tab alone: it comes round to where it began, past every control, in the order of the page and each time with
// the focus in sight; dialogs keep it inside, and give it back when they are closed.

import type { Browser } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { OVERLAYS } from './support/overlays'
import { STATES } from './support/states'
import { walkByTab } from './support/tabWalk'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const WALK_MS = 420_000
/** Tab closes a menu; its entries are reached by arrows (shell.test.ts). */
const MENU = 'the menu of the project'

test(
  'Tab goes through every screen and comes back, with the focus in sight',
  async () => {
    const { page, complaints } = await openApp(browser, { asOpened: true })
    await page.setViewportSize({ width: 1280, height: 720 })
    const faults: string[] = []
    for (const state of STATES) {
      const { name, show, leave } = state
      await show(page)
      await page.getByText('Loading…').waitFor({ state: 'detached' })
      if (name !== MENU) {
        const { stops, missed, returned } = await walkByTab(page)
        if (!returned) faults.push(`${name}: Tab does not come back after ${stops.length} stops`)
        for (const stop of stops) faults.push(...stop.faults.map((each) => `${name}: ${stop.name} ${each}`))
        faults.push(...missed.map((each) => `${name}: Tab misses ${each}`))
      }
      await leave?.(page)
      if (OVERLAYS.includes(state)) {
        await expect
          .poll(() => page.evaluate(() => document.activeElement === document.body), { message: name })
          .toBe(false)
      }
    }
    expect(faults).toEqual([])
    expect(complaints).toEqual([])
  },
  WALK_MS,
)
