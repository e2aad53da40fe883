// What the frame around the screens promises: nothing entered or saved is lost, and every failure is reported in words.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { beforeApp, openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { faultsOf, field, goTo, judge, newEmpty, openTab, showView, type } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const gapField = (page: Page) => field(page, 'Gap')

test('a file that cannot be written is said in words, and the project stays', async () => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  await page.evaluate(() => {
    URL.createObjectURL = () => {
      throw new DOMException('no room', 'NotReadableError')
    }
  })
  await page.keyboard.press('Control+s')
  await page.getByRole('dialog').getByText('Project not saved').waitFor()
  expect(complaints).toEqual([])
})

test('a refusal stays although the browser says late that the one before was closed by Escape', async () => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  const refused = page.getByRole('dialog', { name: 'Action not completed' })
  const send = (type: 'cancel' | 'close') =>
    refused.evaluate((dialog, name) => !dialog.dispatchEvent(new Event(name, { cancelable: true })), type)
  await drop(page, textFile('first.json', '{"format":"other"}'))
  await refused.waitFor()
  // Escape asks first: the browser itself would close it at once and say so a frame later.
  expect(await send('cancel')).toBe(true)
  await refused.waitFor({ state: 'hidden' })
  await drop(page, textFile('second.json', '{"format":"other"}'))
  await refused.waitFor()
  await send('close')
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
  expect(await refused.isVisible()).toBe(true)
  await page.keyboard.press('Escape')
  await refused.waitFor({ state: 'hidden' })
  expect(complaints).toEqual([])
})

test('an arrow key steps from the number entered; a complaint goes with the old value in another spelling', async () => {
  const { page } = await openApp(browser)
  const before = await gapField(page).inputValue()
  await gapField(page).fill('40')
  await gapField(page).press('ArrowUp')
  const gap = async () => Number.parseFloat(await gapField(page).inputValue())
  await expect.poll(gap).toBeGreaterThan(40)
  expect(await gap()).toBeLessThan(42)
  await gapField(page).press('ArrowDown')
  await expect.poll(() => gapField(page).inputValue()).toBe('40 µm')
  await gapField(page).blur()
  await page.keyboard.press('Control+z')
  await expect.poll(() => gapField(page).inputValue()).toBe(before)
  // A complaint goes when the old value is entered again in another spelling.
  await gapField(page).fill('-1')
  await gapField(page).press('Enter')
  await page.getByRole('alert').waitFor()
  await gapField(page).fill(`${Number.parseFloat(before).toFixed(3)} um`)
  await gapField(page).press('Enter')
  await expect.poll(() => page.getByRole('alert').count()).toBe(0)
  await expect.poll(() => gapField(page).inputValue()).toBe(before)
})

test('a plain number entered again in another spelling is shown as the project has it, and its complaint goes', async () => {
  const { page } = await openApp(browser, { asOpened: true })
  await openTab(page, 'First light')
  await showView(page, 'Station')
  const entry = page.getByRole('tabpanel').locator('input').first()
  const before = await entry.inputValue()
  for (const again of [`${before}.000`, before, '']) {
    await type(entry, 'abc')
    await page.getByRole('alert').waitFor()
    await type(entry, again)
    await expect.poll(() => page.getByRole('alert').count()).toBe(0)
    await expect.poll(() => entry.inputValue()).toBe(before)
  }
})

test('a requirement changed on its page is judged in the row of verdicts above it', async () => {
  const { page } = await openApp(browser, { at: 'requirements' })
  await judge(page, 'Cleaved fibre, dry')
  const loss = page.locator('[data-verdict="loss"]')
  await expect.poll(() => loss.textContent()).toContain('not met')
  const limit = page.getByLabel('Insertion-loss limit', { exact: true })
  await limit.fill('60')
  await limit.press('Enter')
  await expect.poll(() => loss.getAttribute('data-status')).toBe('met')
})

test('a number that is stated by keyboard has the focus at once, and gives it back when it is left open', async () => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  await newEmpty(page)
  await goTo(page, 'Requirements')
  const require = page.getByRole('button', { name: 'Add minimum return loss towards the fibre' })
  await require.focus()
  await page.keyboard.press('Enter')
  const field = page.getByLabel('Minimum return loss towards the fibre', { exact: true })
  await expect.poll(() => field.evaluate((input) => input === document.activeElement)).toBe(true)
  await page.keyboard.type('45')
  await page.keyboard.press('Enter')
  await expect.poll(() => field.inputValue()).toBe('45 dB')
  await page.getByRole('button', { name: 'Remove minimum return loss towards the fibre' }).focus()
  await page.keyboard.press('Enter')
  await expect.poll(() => require.evaluate((button) => button === document.activeElement)).toBe(true)
  expect(complaints).toEqual([])
})

test.each([
  [
    'The header',
    () => {
      const make = Document.prototype.createElement
      Document.prototype.createElement = function (this: Document, tag: string, ...rest: []) {
        if (tag === 'nav') throw new Error('a fault made by the test')
        return make.call(this, tag, ...rest)
      } as typeof make
    },
  ],
  [
    'The requirements bar',
    () => {
      const observe = ResizeObserver.prototype.observe
      ResizeObserver.prototype.observe = function (target, options) {
        if (target.closest('[aria-label="Verdicts"]')) throw new Error('a fault made by the test')
        observe.call(this, target, options)
      }
    },
  ],
] as const)('%s that fails says so, and the page goes on', async (part, breakIt) => {
  const { page } = await openApp(browser, { before: (page) => beforeApp(page, breakIt), atOnce: true })
  const alert = page.getByRole('alert')
  await alert.getByText(`${part} has stopped working`).waitFor()
  await alert.getByText('a fault made by the test').waitFor()
  const before = await gapField(page).inputValue()
  await gapField(page).fill('12')
  await gapField(page).press('Enter')
  await expect.poll(() => gapField(page).inputValue()).toBe('12 µm')
  await gapField(page).blur()
  await alert.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => gapField(page).inputValue()).toBe(before)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    alert.getByRole('button', { name: 'Save' }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(/\.json$/)
  expect(await faultsOf(page)).toEqual([])
})

test('a page seen before opens at its top, wherever the page before it was scrolled to', async () => {
  const { page } = await openApp(browser, { at: 'compare' })
  const scrolled = () => page.getByRole('main').evaluate((main) => main.scrollTop)
  await page.getByRole('table', { name: 'Comparison' }).waitFor()
  await goTo(page, 'Requirements')
  await page.getByRole('table', { name: 'Stated requirements' }).scrollIntoViewIfNeeded()
  await expect.poll(scrolled).toBeGreaterThan(100)
  await goTo(page, 'Compare')
  await page.getByRole('table', { name: 'Comparison' }).waitFor()
  await expect.poll(scrolled).toBe(0)
})

test('a page that fails says so, and another page goes on', async () => {
  const { page } = await openApp(browser, { at: 'requirements' })
  await page.evaluate(() => {
    const make = Document.prototype.createElement
    Document.prototype.createElement = function (this: Document, tag: string, ...rest: []) {
      if (tag === 'textarea') throw new Error('a fault made by the test')
      return make.call(this, tag, ...rest)
    } as typeof make
  })
  await goTo(page, 'Review')
  const alert = page.getByRole('alert')
  await alert.getByRole('heading', { name: 'This page has stopped working' }).waitFor()
  await alert.getByText('a fault made by the test').waitFor()
  expect(await faultsOf(page)).toEqual([])
  await goTo(page, 'Parts')
  await page.getByRole('button', { name: 'Catalogue', exact: true }).waitFor()
  await expect.poll(() => alert.count()).toBe(0)
})

test('the depth of undo is where undo is', async () => {
  const { page } = await openApp(browser, { at: 'requirements' })
  expect(await page.getByRole('button', { name: 'Undo' }).getAttribute('title')).toBe(
    'Undo (Ctrl+Z), up to 200 steps',
  )
})
