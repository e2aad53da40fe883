// Editing by keyboard and mouse, undo, files and refusals, in a real browser.

import { readFile } from 'node:fs/promises'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { parseProject } from '../../src/model/index'
import { lossText } from '../../src/model/quantity/lossText'
import { jointEfficiency } from '../../src/optics/index'
import { beforeApp, openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { field, goTo, newEmpty, nominal, selectDesign } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const gapField = (page: Page) => field(page, 'Gap')

async function typeGap(page: Page, text: string): Promise<void> {
  await gapField(page).fill(text)
  await gapField(page).press('Enter')
}

async function saved(page: Page): Promise<unknown> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')])
  return JSON.parse(await readFile(await download.path(), 'utf8'))
}

describe('a gap', () => {
  test('entered as an expression changes loss, curve, map and drawing to what the core computes, and undo restores it', async () => {
    const { page, complaints } = await openApp(browser)
    const before = await nominal(page).textContent()
    await typeGap(page, '80/2 um')
    await expect.poll(() => nominal(page).textContent()).not.toBe(before)
    const project = parseProject(await saved(page))
    const { nominalDb, joints } = evaluateCandidate(project, 'cleaved-dry')
    await expect.poll(() => nominal(page).textContent()).toBe(lossText(nominalDb))
    const [view] = joints
    if (view === undefined) throw new Error('the candidate has one joint')
    const jointDb = lossText(-10 * Math.log10(jointEfficiency(view.joint)))
    await page.getByText(`working point ${jointDb} dB. Contours`).waitFor()
    await page.locator('[data-table="windows"]').scrollIntoViewIfNeeded()
    await page.getByText(`Offset x: ${jointDb} dB at the working point`).waitFor()
    await page.getByRole('application', { name: 'Side view: gap 40.00 µm' }).waitFor()
    expect(project.candidates[0]?.chain[1]).toMatchObject({ gap: { value: 40, typed: '80/2 um' } })
    await page.getByText('Modeseam', { exact: true }).click()
    await page.keyboard.press('Control+z')
    await expect.poll(() => nominal(page).textContent()).toBe(before)
    expect(complaints).toEqual([])
  })

  test('dragged on the drawing moves the number; the whole drag is one undo step, a run of arrow keys after it another', async () => {
    const { page, complaints } = await openApp(browser)
    const before = await gapField(page).inputValue()
    const drawing = page.getByRole('application').first()
    const box = await drawing.boundingBox()
    if (box === null) throw new Error('the drawing is not on the screen')
    const [x, y] = [box.x + box.width * 0.2, box.y + box.height * 0.35]
    await page.mouse.move(x, y)
    await page.mouse.down()
    for (let i = 1; i <= 10; i++) await page.mouse.move(x - 6 * i, y)
    await page.mouse.up()
    await expect.poll(async () => Number.parseFloat(await gapField(page).inputValue())).toBeGreaterThan(5)
    const project = parseProject(await saved(page))
    await expect
      .poll(() => nominal(page).textContent())
      .toBe(lossText(evaluateCandidate(project, 'cleaved-dry').nominalDb))
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => gapField(page).inputValue()).toBe(before)
    await drawing.focus()
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x - 30, y)
    await page.mouse.up()
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowLeft')
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => gapField(page).inputValue()).toBe(before)
    expect(complaints).toEqual([])
  })

  test('that is negative, of the wrong unit or full of letters is refused in words, and the text stays; arrow keys move it', async () => {
    const { page } = await openApp(browser)
    for (const [text, words] of [
      ['-3', 'gap is −3 µm; must be 0 to 100000 µm'],
      ['3 deg', 'deg is an incompatible unit'],
      ['1o.4', 'which is not a number'],
    ] as const) {
      await typeGap(page, text)
      await page.getByText(words).waitFor()
      await expect.poll(() => gapField(page).inputValue()).toBe(text)
      await gapField(page).press('Escape')
    }
    await expect.poll(() => gapField(page).inputValue()).toBe('3 µm')
    await gapField(page).focus()
    await page.keyboard.press('ArrowUp')
    await expect.poll(() => gapField(page).inputValue()).toBe('3.5 µm')
    await page.getByRole('application').first().focus()
    await page.keyboard.press('Shift+ArrowLeft')
    await expect.poll(() => gapField(page).inputValue()).toBe('4.5 µm')
  })
})

test('arrow keys move the ± of a number by the step of the number, not below 0, in one step of undo', async () => {
  const { page, complaints } = await openApp(browser)
  const width = page.getByLabel('± of Gap', { exact: true })
  const before = await width.inputValue()
  await width.fill('1.2')
  await width.press('Enter')
  for (const [key, shown] of [
    ['ArrowUp', '± 1.7'],
    ['PageUp', '± 6.7'],
    ['PageDown', '± 1.7'],
    ['ArrowDown', '± 1.2'],
    ['PageDown', ''],
    ['ArrowDown', ''],
    ['ArrowUp', '± 0.5'],
  ] as const) {
    await width.press(key)
    await expect.poll(() => width.inputValue(), { message: key }).toBe(shown)
  }
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => width.inputValue()).toBe('± 1.2')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => width.inputValue()).toBe(before)
  expect(complaints).toEqual([])
})

describe('text in a field', () => {
  test('that was refused is still there, with its reason, after another page was shown; it stays with its design, and the next one is drawn at its own scale', async () => {
    const { page } = await openApp(browser)
    const bar = page.locator('.drawn-bar text').first()
    const atFirst = await bar.textContent()
    await page.getByRole('button', { name: 'Fit waveguide' }).click()
    await expect.poll(() => bar.textContent()).not.toBe(atFirst)
    await typeGap(page, '-3')
    const refused = page.getByText('gap is −3 µm; must be 0 to 100000 µm')
    await refused.waitFor()
    await selectDesign(page, 'High-NA stub, bonded')
    await page.getByRole('heading', { level: 1, name: 'High-NA stub, bonded' }).waitFor()
    await expect.poll(() => gapField(page).inputValue()).toBe('3 µm')
    await expect.poll(() => page.getByText('gap is −3 µm').count()).toBe(0)
    const ownZoom = await bar.textContent()
    await page.getByRole('button', { name: 'Fit joint' }).click()
    await expect.poll(() => bar.textContent()).toBe(ownZoom)

    await selectDesign(page, 'Cleaved fibre, dry')
    await refused.waitFor()
    await goTo(page, 'Parts')
    await goTo(page, 'Design')
    await refused.waitFor()
    await expect.poll(() => gapField(page).inputValue()).toBe('-3')
    await gapField(page).press('Escape')
    await expect.poll(() => gapField(page).inputValue()).toBe('3 µm')
  })

  test('is accepted before the project is saved, also as an expression, and has its own undo until then', async () => {
    const { page } = await openApp(browser)
    await gapField(page).fill('(10 + 5) um')
    expect(parseProject(await saved(page)).candidates[0]?.chain[1]).toMatchObject({ gap: { value: 15 } })
    await typeGap(page, '12')
    await gapField(page).press('End')
    await page.keyboard.type('4')
    await page.keyboard.press('Control+z')
    await expect.poll(() => gapField(page).inputValue()).toBe('12 µm')
  })
})

describe('angled end faces', () => {
  test('show the pointing that Snell asks for: 8 degrees of fused silica in air bend the beam by some 3.6 degrees', async () => {
    const { page } = await openApp(browser)
    const face = field(page, 'Angle, fibre side')
    await face.fill('8 deg')
    await face.press('Enter')
    // asin(1.4428 sin 8 deg) - 8 deg = 3.58 deg, with the index of fused silica at 1653.7 nm (Malitson 1965)
    await page.getByText('fibre axis −3.58° in x').waitFor()
    await page.getByText('Face plane and pointing').click()
    await page.getByText('Fibre axis tilted −3.58° in x').waitFor()
    await field(page, 'Fibre axis').selectOption('parallel to chip axis')
    await expect.poll(() => page.getByText('−3.58°').count()).toBe(0)
    const tilt = page.locator('tr[data-line="gap/tilt"] td').first()
    await expect.poll(async () => Number.parseFloat((await tilt.textContent()) ?? '')).toBeGreaterThan(0.3)
  })
})

describe('files', () => {
  test('a saved project opens again with the same numbers, also after a reload', async () => {
    const { page, complaints } = await openApp(browser)
    const before = await nominal(page).textContent()
    await typeGap(page, '12')
    const text = JSON.stringify(await saved(page))
    await expect.poll(() => nominal(page).textContent()).not.toBe(before)
    const loss = await nominal(page).textContent()
    await page.getByText('saved in this browser').waitFor()
    await page.reload()
    await expect.poll(() => nominal(page).textContent()).toBe(loss)
    await page.getByText('saved in this browser').waitFor()
    await newEmpty(page)
    await page.getByText('This project has none yet').waitFor()
    await drop(page, textFile('project.json', text))
    await expect.poll(() => nominal(page).textContent()).toBe(loss)
    expect(complaints).toEqual([])
  })

  test('a wrong file is refused with every reason, and the open project stays', async () => {
    const { page } = await openApp(browser)
    const project = (await saved(page)) as { candidates: { chain: { gap?: { value: number } }[] }[] }
    const gap = project.candidates[0]?.chain[1]?.gap
    if (gap) gap.value = -1
    const before = await nominal(page).textContent()
    await drop(page, textFile('project.json', JSON.stringify(project)))
    await page.getByRole('dialog').getByText('gap is −1 µm; must be 0 to 100000 µm').waitFor()
    await page.keyboard.press('Escape')
    await drop(page, textFile('project.json', 'no json at all'))
    await page.getByRole('dialog').getByText('the file is not JSON').waitFor()
    await page.getByRole('button', { name: 'Close' }).click()
    await expect.poll(() => nominal(page).textContent()).toBe(before)
  })
})

describe('storage', () => {
  test('that the browser refuses is said in words, and nothing entered is lost', async () => {
    const block = () => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('blocked', 'SecurityError')
      }
    }
    const { page, complaints } = await openApp(browser, { before: (page) => beforeApp(page, block) })
    await typeGap(page, '12')
    await page.getByText('browser storage is blocked. Save to a file.').waitFor()
    await expect.poll(() => gapField(page).inputValue()).toBe('12 µm')
    expect(parseProject(await saved(page)).candidates[0]?.chain[1]).toMatchObject({ gap: { value: 12 } })
    expect(complaints).toEqual([])
  })

  test('is left to the first of two tabs, and the second says so', async () => {
    const { page } = await openApp(browser)
    const second = await page.context().newPage()
    await second.goto(page.url())
    await second.getByText('another tab is saving this project').waitFor()
    await typeGap(page, '12')
    await page.getByText('saved in this browser').waitFor()
  })
})
