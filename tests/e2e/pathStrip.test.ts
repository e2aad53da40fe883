// The Path strip in a real browser: select, insert, move, remove, by pointer and keyboard.

import type { Browser } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { field, selectDesign } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

test('elements are selected, inserted, moved and removed in the strip; what cannot be built says why', async () => {
  const { page, complaints } = await openApp(browser)
  const strip = page.getByRole('region', { name: 'Path', exact: true })
  const stops = strip.locator('button[aria-pressed]')
  await expect.poll(() => stops.count()).toBe(3)

  // The fibre: its removal is shown with the reason.
  await stops.nth(0).click()
  await expect.poll(() => stops.nth(0).getAttribute('aria-pressed')).toBe('true')
  const change = strip.getByRole('button', { name: /^Insert, move, remove/ })
  await change.click()
  const refused = page.getByRole('menuitem', { name: /Remove fibre/ })
  await expect.poll(() => refused.getAttribute('aria-disabled')).toBe('true')
  await expect.poll(() => refused.textContent()).toContain('A path starts with a fibre.')
  await page.getByRole('menuitem', { name: 'Add spliced stub' }).click()
  await expect.poll(() => stops.count()).toBe(5)
  await change.click()
  await page.getByRole('menuitem', { name: 'Add spliced stub' }).click()
  await expect.poll(() => stops.count()).toBe(7)

  // By keyboard: to the second stub, towards the fibre, and away.
  const ids = () => stops.evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')))
  await stops.nth(0).focus()
  for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight')
  await expect.poll(() => stops.nth(4).getAttribute('aria-pressed')).toBe('true')
  await page.keyboard.press('Alt+ArrowLeft')
  await expect.poll(() => stops.nth(2).getAttribute('aria-pressed')).toBe('true')

  // By pointer: past the middle of its neighbour the stub changes places with it.
  const before = await ids()
  const [own, other] = [await stops.nth(2).boundingBox(), await stops.nth(4).boundingBox()]
  if (own === null || other === null) throw new Error('no stubs on the strip')
  await page.mouse.move(own.x + own.width / 2, own.y + 20)
  await page.mouse.down()
  await page.mouse.move(other.x + other.width / 2, own.y + 20, { steps: 3 })
  await page.mouse.move(other.x + other.width * 0.8, own.y + 20)
  await page.mouse.up()
  await expect.poll(() => stops.nth(4).getAttribute('aria-pressed')).toBe('true')
  await page.keyboard.press('Control+z')
  await expect.poll(ids).toEqual(before)

  // Another part in its place, from the strip.
  await stops.nth(2).click()
  await change.click()
  await page.getByRole('menuitemradio', { name: 'Standard single-mode fibre' }).click()
  await expect.poll(async () => (await ids())[2]).toContain('Standard single-mode fibre')

  await stops.nth(2).focus()
  await page.keyboard.press('Delete')
  await expect.poll(() => stops.count()).toBe(5)
  await expect.poll(async () => (await ids())[0]).toContain('MFD')
  expect(complaints).toEqual([])
})

test('a click or the keys on map and curve move the working point of a gap and of a relay, one undo step each', async () => {
  const { page, complaints } = await openApp(browser)
  await page.setViewportSize({ width: 1280, height: 720 })
  for (const design of ['Cleaved fibre, dry', 'Two-lens relay with isolator']) {
    await selectDesign(page, design)
    await page.getByRole('heading', { level: 1, name: design }).waitFor({ state: 'attached' })
    const map = page.locator('.tolerance-map [data-movable]')
    const headline = () => page.locator('[data-headline="nominal"] dd').textContent()
    await map.waitFor()
    // A relay is shown by its rays before its real fields are known.
    await page.locator('.verdict-strip .provisional').first().waitFor({ state: 'detached' })
    const before = await headline()
    const box = await map.locator('canvas').boundingBox()
    if (box === null) throw new Error('no map')
    await page.mouse.move(box.x + box.width * 0.62, box.y + box.height * 0.42)
    await page
      .locator('.tolerance-map .figure-reading')
      .getByText(/^Offset x .* µm, Offset y .* µm: \d+\.\d+ dB/)
      .waitFor()
    await page.mouse.click(box.x + box.width * 0.62, box.y + box.height * 0.42)
    await expect.poll(headline).not.toBe(before)
    await expect.poll(() => field(page, 'Offset y').inputValue()).not.toBe('0 µm')
    await page.keyboard.press('Control+z')
    await expect.poll(headline).toBe(before)
    await map.focus()
    await page.keyboard.press('Shift+ArrowRight')
    await expect.poll(headline).not.toBe(before)
    await page.keyboard.press('Control+z')
    await expect.poll(headline).toBe(before)
    const curve = page.locator('[data-figure="loss-curve"] [data-movable]')
    await page.locator('[data-table="windows"]').scrollIntoViewIfNeeded()
    await curve.focus()
    await page.keyboard.press('Shift+ArrowLeft')
    await expect.poll(headline).not.toBe(before)
    await page.keyboard.press('Control+z')
    await expect.poll(headline).toBe(before)
  }
  expect(complaints).toEqual([])
})
