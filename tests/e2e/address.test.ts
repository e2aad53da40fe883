// The address: pages, designs and tabs by back, forward and reload; a project in a link; links that mean harm.

import { readFile } from 'node:fs/promises'
import { deflateSync } from 'node:zlib'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { demoProject, parseProject } from '../../src/model/index'
import { openApp, ownContext, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { hold } from './support/hold'
import { showPart } from './support/parts'
import { field, goTo, openTab, projectMenu, selectDesign, type } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const fragment = (page: Page) => page.evaluate(() => location.hash)
const current = (page: Page) => page.locator('nav [aria-current="page"]').first().textContent()
const linkOf = (text: string) => `#project=1.${deflateSync(text).toString('base64url')}`

/** Types an address into a tab that is open. */
async function visit(page: Page, hash: string): Promise<void> {
  await page.evaluate((text) => {
    location.hash = text
  }, hash)
}

async function copiedLink(page: Page): Promise<string> {
  await projectMenu(page, /^Copy link/)
  const field = page.getByLabel('Link', { exact: true })
  await expect.poll(() => field.inputValue()).toContain('#project=')
  const link = await field.inputValue()
  await page.keyboard.press('Escape')
  return link
}

async function savedName(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')])
  return parseProject(JSON.parse(await readFile(await download.path(), 'utf8'))).name
}

describe('the address', () => {
  test('names page, design and tab; back, forward and reload come to the same place', async () => {
    const { page, complaints } = await openApp(browser)
    const last = demoProject().candidates.at(-1)!
    await expect.poll(() => fragment(page)).toMatch(/^#\/design\/[^/]+\/tolerance$/)
    await selectDesign(page, last.name)
    await openTab(page, 'Temperature')
    await expect.poll(() => fragment(page)).toBe(`#/design/${last.id}/temperature`)
    await showPart(page, 'Silicon-nitride facet')
    await page.getByRole('tab', { name: 'Solved mode' }).click()
    await expect.poll(() => fragment(page)).toBe('#/parts/facets:facet-nitride/mode')
    await goTo(page, 'Review')
    await expect.poll(() => fragment(page)).toBe('#/review')

    await page.goBack()
    await page.getByRole('tab', { name: 'Solved mode', selected: true }).waitFor()
    while ((await fragment(page)) !== `#/design/${last.id}/temperature`) await page.goBack()
    await page.getByRole('tab', { name: 'Temperature', selected: true }).waitFor()
    await page.goForward()
    await expect.poll(() => current(page)).toBe('Parts')
    await page.goBack()
    await page.reload()
    await page.getByRole('tab', { name: 'Temperature', selected: true }).waitFor()
    await expect.poll(() => fragment(page)).toBe(`#/design/${last.id}/temperature`)
    expect(complaints).toEqual([])
  })

  test('gives way to a design that is chosen before the kept project is there', async () => {
    const { page, complaints } = await openApp(browser)
    const [first, last] = [demoProject().candidates[0]!, demoProject().candidates.at(-1)!]
    await type(field(page, 'Gap'), '12')
    await page.getByText('Saved in this browser').waitFor()
    await selectDesign(page, last.name)
    const release = await hold(page, /startSaving-[^/]*\.js$/)
    await page.reload()
    await expect.poll(() => fragment(page)).toContain(`/design/${last.id}`)
    await selectDesign(page, first.name)
    release()
    await page.getByText('Saved in this browser').waitFor()
    await expect.poll(() => field(page, 'Gap').inputValue()).toBe('12 µm')
    await expect.poll(() => fragment(page)).toContain(`/design/${first.id}`)
    await page.goBack()
    await expect.poll(() => fragment(page)).toContain(`/design/${last.id}`)
    expect(complaints).toEqual([])
  })

  test('of nowhere shows what was shown before', async () => {
    const { page, complaints } = await openApp(browser, { at: 'sizing' })
    for (const hash of ['#/nowhere', '#/design/none/nothing', '#/%E0%A4%A', '#/<img src=x>', '#somewhere']) {
      await visit(page, hash)
      await page.getByRole('navigation', { name: 'Pages' }).waitFor()
      await expect.poll(() => fragment(page)).toMatch(/^#\/(sizing|design)\/[a-z0-9-]+/)
    }
    expect(complaints).toEqual([])
  })
})

describe('a link with the project', () => {
  test('opens it in a fresh browser, and a reload keeps it without the link', async () => {
    const first = await openApp(browser, { at: 'requirements' })
    const other = { ...demoProject(), name: 'Sent by link' }
    await visit(first.page, linkOf(JSON.stringify(other)))
    await first.page.getByRole('button', { name: 'Project: Sent by link' }).waitFor()
    const link = await copiedLink(first.page)
    expect(link.length).toBeLessThan(30_000)

    const context = await ownContext(browser)
    const page = await context.newPage()
    await page.goto(link)
    await page.getByRole('button', { name: 'Project: Sent by link' }).waitFor()
    await expect.poll(() => fragment(page)).not.toContain('project=')
    await page.getByText('saved in this browser').waitFor()
    await page.reload()
    await page.getByRole('button', { name: 'Project: Sent by link' }).waitFor()
    expect(first.complaints).toEqual([])
  })

  test('asks before it takes the place of unsaved work, and leaves it where the answer is no', async () => {
    const { page, complaints } = await openApp(browser, { at: 'parts' })
    const part = await showPart(page, 'Silicon-nitride facet')
    await part.getByLabel('MFD x', { exact: true }).fill('3.3')
    await part.getByLabel('MFD x', { exact: true }).press('Enter')
    await visit(page, linkOf(JSON.stringify({ ...demoProject(), name: 'Another' })))
    const dialog = page.getByRole('dialog').filter({ hasText: 'Another' })
    await dialog.waitFor()
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'hidden' })
    await expect.poll(() => part.getByLabel('MFD x', { exact: true }).inputValue()).toBe('3.3 µm')
    expect(await savedName(page)).toBe(demoProject().name)
    expect(complaints).toEqual([])
  })

  const HARMFUL: readonly (readonly [kind: string, hash: () => string, words: string])[] = [
    ['cut short', () => linkOf(JSON.stringify(demoProject())).slice(0, -60), 'incomplete or damaged'],
    ['with markup', () => '#project=1.<script>alert(1)</script>', 'incomplete or damaged'],
    ['of another release', () => '#project=9.AAAA', 'another release'],
    ['too long', () => `#project=1.${'A'.repeat(40_000)}`, 'the limit is 30.0 kB'],
    ['that unpacks without end', () => linkOf('0'.repeat(9_000_000)), 'unpacks to more than 4 MB'],
    [
      'with a reserved key',
      () => linkOf(`{"__proto__":{},${JSON.stringify(demoProject()).slice(1)}`),
      '__proto__',
    ],
    ['that holds no project', () => linkOf('{"format":"something else"}'), 'format is'],
  ]

  test('that is damaged or means harm is refused in a sentence, and the open project stays', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    const dialog = page.getByRole('dialog', { name: 'Action not completed' })
    for (const [kind, hash, words] of HARMFUL) {
      await visit(page, hash())
      await dialog.getByText(words).first().waitFor()
      await page.keyboard.press('Escape')
      await dialog.waitFor({ state: 'hidden' })
      expect(await savedName(page), kind).toBe(demoProject().name)
      expect(await fragment(page), kind).toBe('#/requirements')
    }
    expect(complaints).toEqual([])
  })

  test('is refused with the reason where the project is too large', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    const project = demoProject()
    const noise = Array.from({ length: 9000 }, (_, i) => ((Math.sin(i) * 1e9) | 0).toString(36)).join('')
    project.fibres[0]!.remark = noise.slice(0, 9000)
    project.fibres[1]!.remark = noise.slice(9000, 18_000)
    project.facets[0]!.remark = noise.slice(18_000, 27_000)
    project.media[0]!.remark = noise.slice(27_000, 36_000)
    await drop(page, textFile('large.json', JSON.stringify({ ...project, name: 'Large' })))
    await page.getByRole('button', { name: 'Project: Large' }).waitFor()
    await projectMenu(page, /^Copy link/)
    await page
      .getByText(/Link not copied: the project needs \d+\.\d kB; a link holds at most 30\.0 kB/)
      .waitFor()
  })
})
