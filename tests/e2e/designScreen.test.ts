// The Design screen: everything of one design in sight at once, at every size, in both themes; one selection, one frame.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { hold } from './support/hold'
import { field, pane, selectByLine, selectDesign, type } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const SIZES = [
  [1280, 720],
  [1280, 800],
  [1920, 1080],
  [3840, 2160],
] as const

async function opened(width: number, height: number) {
  const app = await openApp(browser)
  await app.page.setViewportSize({ width, height })
  await app.page.locator('.tolerance-map canvas').waitFor()
  return app
}

/** Page scroll: how far the document is larger than the window. */
async function overflow(page: Page) {
  return page.evaluate(() => {
    const { scrollWidth, scrollHeight } = document.documentElement
    return { x: scrollWidth - window.innerWidth, y: scrollHeight - window.innerHeight }
  })
}

/** What of a region lies outside the window, or is cut off by a pane above it, in px. */
async function hidden(page: Page, selector: string): Promise<number> {
  return page
    .locator(selector)
    .first()
    .evaluate((element) => {
      const own = element.getBoundingClientRect()
      let { left, top, right, bottom } = {
        left: 0,
        top: 0,
        right: window.innerWidth,
        bottom: window.innerHeight,
      }
      for (let above = element.parentElement; above !== null; above = above.parentElement) {
        if (getComputedStyle(above).overflow === 'visible') continue
        const box = above.getBoundingClientRect()
        left = Math.max(left, box.left)
        top = Math.max(top, box.top)
        right = Math.min(right, box.right)
        bottom = Math.min(bottom, box.bottom)
      }
      return Math.max(left - own.left, top - own.top, own.right - right, own.bottom - bottom)
    })
}

const IN_SIGHT = [
  '[data-pane="Designs"]',
  '[data-pane="Path"]',
  '[data-pane="Drawing"]',
  '[data-pane="Inspector"]',
  '[data-pane="Budget"]',
  '[data-pane="Depth"]',
  'section[aria-label="Verdicts"]',
  '.headline',
  '[data-pane="Drawing"] svg[role="application"]',
  'tr[data-total="Nominal"]',
  'tr[data-total="Worst case"]',
  '.tolerance-map canvas',
]

/** What is not whole and in sight: a page that scrolls, a region that is cut off, a pane that covers another. */
async function outOfSight(page: Page): Promise<readonly string[]> {
  const found: string[] = []
  const { x, y } = await overflow(page)
  if (x !== 0 || y !== 0) found.push(`the page scrolls by ${x} and ${y} px`)
  for (const selector of IN_SIGHT) {
    const px = await hidden(page, selector)
    if (!(px <= 0.5)) found.push(`${selector}: ${px} px are hidden`)
  }
  const boxes = await page
    .locator('[data-pane]')
    .evaluateAll((all) => all.map((each) => each.getBoundingClientRect().toJSON() as DOMRect))
  for (const [at, a] of boxes.entries()) {
    for (const b of boxes.slice(at + 1)) {
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left)
      const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
      if (Math.min(across, down) > 0.5) found.push('a pane covers another')
    }
  }
  return found
}

test('at every size and in either theme all panes and the map are whole and in sight', async () => {
  const { page, complaints } = await opened(...SIZES[0])
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height })
      const where = `${width} x ${height}, ${colorScheme}`
      await expect.poll(() => outOfSight(page), { message: where }).toEqual([])
    }
  }
  expect(complaints).toEqual([])
})

test('before the verdicts are there, their row has its room: the page below stays where it is', async () => {
  let release = () => {}
  const before = async (page: Page) => {
    release = await hold(page, '**/assets/evaluation-*.js')
  }
  const { page, complaints } = await openApp(browser, { before, atOnce: true })
  const main = page.getByRole('main')
  const top = () => main.evaluate((element) => element.getBoundingClientRect().top)
  await main.waitFor()
  await page.evaluate(() => document.fonts.ready.then(() => true))
  const at = await top()
  expect(await page.locator('.verdict-strip').count()).toBe(0)
  release()
  await page.locator('.verdict-strip').waitFor()
  expect(Math.abs((await top()) - at)).toBeLessThanOrEqual(0.5)
  expect(complaints).toEqual([])
})

describe('in one column', () => {
  test.each([
    [1024, 768],
    [320, 640],
  ] as const)('at %i x %i nothing has to be scrolled sideways', async (width, height) => {
    const { page, complaints } = await opened(width, height)
    await expect.poll(async () => (await overflow(page)).x).toBe(0)
    const lefts = () =>
      page.locator('[data-pane]').evaluateAll((all) => all.map((each) => each.getBoundingClientRect().left))
    await expect.poll(async () => new Set(await lefts()).size).toBe(1)
    await selectDesign(page, 'High-NA stub, bonded')
    await pane(page, 'Inspector').getByRole('heading', { name: 'Stub to facet' }).waitFor()
    const names = await page.locator('[data-pane]').evaluateAll((all) => all.map((each) => each.dataset.pane))
    expect(names.toSorted()).toEqual(['Budget', 'Depth', 'Designs', 'Drawing', 'Inspector', 'Path'])
    expect(complaints).toEqual([])
  })
})

/** Everything that a move of the fibre changes, as it is on screen; runs in the page. */
function shownNumbers() {
  const text = (selector: string) => document.querySelector(selector)?.textContent ?? ''
  const drawn = (selector: string) => document.querySelector(`${selector} svg`)?.outerHTML ?? ''
  const labels = [...document.querySelectorAll<HTMLLabelElement>('[data-pane="Inspector"] label')]
  const gap = labels.find(({ textContent }) => textContent === 'Gap')?.control
  const dimension = document.querySelector<HTMLInputElement>('[data-pane="Drawing"] .dimension-input')
  return {
    gap: gap instanceof HTMLInputElement ? gap.value : '',
    dimension: dimension?.value ?? '',
    nominal: text('tr[data-total="Nominal"] td'),
    headline: text('[data-headline="nominal"] dd'),
    rail: text('li[data-chosen="true"] .design-loss'),
    rss: text('[data-headline="RSS"] dd'),
    worstCase: text('tr[data-total="Worst case"] td'),
    drawing: drawn('[data-pane="Drawing"] .drawing-sheet'),
    path: drawn('[data-pane="Path"] .path-frame'),
    map: drawn('.tolerance-map'),
    colours: document.querySelector<HTMLCanvasElement>('.tolerance-map canvas')?.toDataURL() ?? '',
    optimum: text('.optimum-line'),
  }
}

/** The same once nothing of it changes any more: what is laid out or computed late has come. */
async function settledNumbers(page: Page): Promise<ReturnType<typeof shownNumbers>> {
  await page.evaluate(() => document.fonts.ready.then(() => true))
  let last = await page.evaluate(shownNumbers)
  let unchanged = 0
  const look = async () => {
    const now = await page.evaluate(shownNumbers)
    const same = Object.entries(now).every(([what, value]) => last[what as keyof typeof last] === value)
    unchanged = same ? unchanged + 1 : 0
    last = now
    return unchanged
  }
  await expect.poll(look, { interval: 100 }).toBeGreaterThanOrEqual(3)
  return last
}

/** The same in the frame of the last move of the pointer, before it was painted. */
async function watchMoves(page: Page): Promise<() => Promise<ReturnType<typeof shownNumbers>>> {
  await page.evaluate(`
    const shownNumbers = ${shownNumbers.toString()}
    addEventListener('pointermove', () => requestAnimationFrame(() => { window.inTheFrame = shownNumbers() }), true)
  `)
  return async () => {
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
    return page.evaluate('window.inTheFrame')
  }
}

const AT_OPTIMUM = 'All unpinned parameters are at their optimum.'

/** The optimum as it is now found, and applied where there is something to gain. */
async function atOptimum(page: Page): Promise<void> {
  await page.locator('.optimum[aria-busy="false"]').waitFor()
  const apply = page.getByRole('button', { name: 'Apply optimum' })
  if (await apply.isEnabled()) await apply.click()
  await page.locator('.optimum[aria-busy="false"]').getByText(AT_OPTIMUM).waitFor()
}

describe('a drag of the fibre', () => {
  test('changes drawing, budget, totals and map in the frame of the move, and is one undo step', async () => {
    const { page, complaints } = await opened(1280, 720)
    await atOptimum(page)
    // The light in the drawing comes a moment after the rest.
    await page.locator('[data-pane="Drawing"] .drawn-light').first().waitFor({ state: 'attached' })
    const before = await settledNumbers(page)
    const inTheFrame = await watchMoves(page)
    const box = await page.getByRole('application').first().boundingBox()
    if (box === null) throw new Error('the drawing is not on the screen')
    const [x, y] = [box.x + box.width * 0.2, box.y + box.height * 0.35]
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x - 30, y)
    await page.mouse.move(x - 60, y)
    const { optimum, ...during } = await inTheFrame()
    for (const [what, value] of Object.entries(during)) {
      expect(value, what).not.toBe(before[what as keyof typeof before])
    }
    expect(during.headline).toBe(during.nominal)
    expect(during.rail).toBe(during.nominal)
    expect(optimum).not.toContain(AT_OPTIMUM)
    // What follows when there is time changes none of it: nothing was left from the move before.
    await page.locator('.optimum[aria-busy="false"]').waitFor()
    expect(await page.evaluate(shownNumbers)).toMatchObject(during)
    await page.mouse.up()
    await page.keyboard.press('Control+z')
    await expect.poll(() => page.evaluate(shownNumbers)).toEqual(before)
    expect(complaints).toEqual([])
  })
})

/** Words at rays that an edge of the fibre side or of the beam runs through. */
function crossedWords(): readonly (string | null)[] {
  const crossed = (text: SVGTextElement) => {
    const { x, y, width, height } = text.getBBox()
    const shapes = text
      .closest('svg')
      ?.querySelectorAll<SVGPolygonElement>('.drawn-fibre > .drawn-body, .drawn-beam')
    return Array.from(shapes ?? []).some((shape) => {
      const isIn = [x, x + width].flatMap((atX) =>
        [y + 2, y + height - 2].map((atY) => shape.isPointInFill(new DOMPoint(atX, atY))),
      )
      return isIn.includes(true) && isIn.includes(false)
    })
  }
  return [...document.querySelectorAll<SVGTextElement>('[data-ray] text')]
    .filter(crossed)
    .map((text) => text.textContent)
}

test('the return losses at the rays of a joint lie clear of what stands on the fibre side and of the light', async () => {
  const { page, complaints } = await opened(1280, 720)
  for (const size of [
    { width: 1280, height: 720 },
    { width: 1920, height: 1080 },
  ]) {
    await page.setViewportSize(size)
    for (const name of ['Lensed fibre', 'Cleaved fibre, dry', 'High-NA stub, bonded', 'SSC chip']) {
      await selectDesign(page, name)
      await page.getByRole('heading', { level: 1, name, exact: true }).waitFor({ state: 'attached' })
      await expect.poll(() => page.locator('[data-ray] text').count()).toBe(2)
      await expect
        .poll(() => page.evaluate(crossedWords), { message: `${name} at ${size.width}` })
        .toEqual([])
    }
  }
  expect(complaints).toEqual([])
})

test('a drag over drawing, path or map selects no text and takes no focus from a number, wherever it ends', async () => {
  const { page, complaints } = await opened(1280, 720)
  const ends = await pane(page, 'Inspector').boundingBox()
  if (ends === null) throw new Error('the inspector is not on the screen')
  for (const [what, shown] of [
    ['drawing', page.getByRole('application').first()],
    ['path', pane(page, 'Path').locator('svg').first()],
    ['map', page.locator('.tolerance-map svg').first()],
  ] as const) {
    const box = await shown.boundingBox()
    if (box === null) throw new Error(`the ${what} is not on the screen`)
    for (const [across, down] of [
      [0.2, 0.35],
      [0.5, 0.95],
    ] as const) {
      await page.mouse.move(box.x + across * box.width, box.y + down * box.height)
      await page.mouse.down()
      await page.mouse.move(box.x + 0.9 * box.width, box.y + 0.9 * box.height, { steps: 4 })
      await page.mouse.move(ends.x + 0.5 * ends.width, ends.y + 0.7 * ends.height, { steps: 4 })
      const selected = await page.evaluate(() => [
        getSelection()?.toString(),
        document.activeElement?.tagName === 'INPUT',
      ])
      await page.mouse.up()
      expect(selected, what).toEqual(['', false])
    }
  }
  expect(complaints).toEqual([])
})

describe('one selection', () => {
  test('made in the budget is that of inspector and budget; a small line is reached by unfolding', async () => {
    const { page, complaints } = await opened(1280, 720)
    await selectDesign(page, 'High-NA stub, bonded')
    await pane(page, 'Inspector').getByRole('heading', { name: 'Stub to facet' }).waitFor()
    await selectByLine(page, 'splice/splice')
    await pane(page, 'Inspector').getByRole('heading', { name: 'Splice' }).waitFor()
    await expect
      .poll(() => page.locator('tr[data-line="splice/splice"]').getAttribute('data-selected'))
      .toBe('true')
    await expect.poll(() => page.locator('tr[data-selected="true"]').count()).toBe(1)
    expect(complaints).toEqual([])
  })

  test('by keyboard: every number of the inspector takes text and arrows, the drawing takes arrows', async () => {
    const { page } = await opened(1280, 720)
    await type(field(page, '± of Offset x'), '0.7 um')
    await expect.poll(() => field(page, '± of Offset x').inputValue()).toBe('± 0.7')
    await type(field(page, '± of Offset x'), 'wide')
    await page.getByRole('alert').getByText('must be a number in µm').waitFor()
    await field(page, '± of Offset x').press('Escape')
    await field(page, 'Gap').focus()
    await page.keyboard.press('ArrowUp')
    await expect.poll(() => field(page, 'Gap').inputValue()).toBe('3.5 µm')
    await page.getByRole('application').first().focus()
    await page.keyboard.press('ArrowUp')
    await expect.poll(() => field(page, 'Offset y').inputValue()).toBe('0.1 µm')
  })
})

test('the depth pane takes the whole middle, and gives it back with Escape', async () => {
  const { page } = await opened(1280, 720)
  const depth = page.locator('[data-pane="Depth"]')
  const small = await depth.boundingBox()
  await page.getByRole('button', { name: 'Expand' }).click()
  await expect
    .poll(async () => (await depth.boundingBox())?.height)
    .toBeGreaterThan(2 * (small?.height ?? 0) - 60)
  await page.keyboard.press('Escape')
  await expect.poll(async () => (await depth.boundingBox())?.height).toBeLessThan((small?.height ?? 0) + 20)
})

test('a pane keeps the size it was given, after a reload too; sizes that make no sense are not used', async () => {
  const { page } = await opened(1280, 720)
  const width = async () =>
    Math.round((await page.locator('[data-pane="Designs"]').boundingBox())?.width ?? 0)
  const before = await width()
  await page.getByRole('separator', { name: /designs/ }).focus()
  await page.keyboard.press('ArrowRight')
  await expect.poll(width).toBeGreaterThan(before)
  const wider = await width()
  await page.reload()
  await page.locator('.tolerance-map canvas').waitFor()
  await expect.poll(async () => Math.abs((await width()) - wider)).toBeLessThanOrEqual(1)
  await page.evaluate(() => localStorage.setItem('modeseam-panes-design', '{"designs":900}'))
  await page.reload()
  await page.locator('.tolerance-map canvas').waitFor()
  await expect.poll(width).toBe(before)
})
