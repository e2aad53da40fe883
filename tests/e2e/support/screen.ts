// The app by the names of its parts: pages, project menu, and the panes of the Design screen.

import axe from 'axe-core'
import type { Locator, Page } from 'playwright-core'

export type PageName =
  | 'Requirements'
  | 'Parts'
  | 'Design'
  | 'Compare'
  | 'Sizing'
  | 'Order'
  | 'Measurements'
  | 'Review'

export async function goTo(page: Page, name: PageName): Promise<void> {
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('button', { name, exact: true }).click()
}

/** Chooses an entry of the menu under the project's name, as `New` or `Save`. */
export async function projectMenu(page: Page, entry: string | RegExp): Promise<void> {
  await page.getByRole('button', { name: /^Project: / }).click()
  await page.getByRole('menuitem', { name: entry }).click()
}

/** A new project without parts or designs; changes of the one before are given up. */
export async function newEmpty(page: Page): Promise<void> {
  await projectMenu(page, 'New')
  const goOn = page.getByRole('button', { name: 'Continue without saving' })
  const empty = page.getByRole('button', { name: 'Start empty' })
  await goOn.or(empty).first().waitFor()
  if (await goOn.isVisible()) await goOn.click()
  await empty.click()
}

/** A pane of the Design screen: `Path`, `Drawing`, `Inspector`, `Budget`, `Designs`, or the tab's own name. */
export const pane = (page: Page, name: string): Locator => page.getByRole('region', { name, exact: true })

/** A number, text or choice of the element that is selected. */
export const field = (page: Page, label: string): Locator =>
  pane(page, 'Inspector').getByLabel(label, { exact: true })

export async function type(target: Locator, text: string): Promise<void> {
  await target.fill(text)
  await target.press('Enter')
}

/** Chooses in a combobox of the inspector by the whole name. */
export async function choose(page: Page, label: string, name: string): Promise<void> {
  const box = pane(page, 'Inspector').getByRole('combobox', { name: label, exact: true })
  await box.click()
  await page.getByRole('option', { name, exact: true }).click()
}

/** The row of a design in the rail. */
export const designRow = (page: Page, name: string): Locator =>
  pane(page, 'Designs').locator('li[data-design]', { hasText: name })

export async function selectDesign(page: Page, name: string): Promise<void> {
  await designRow(page, name).first().locator('.design-choice').click()
}

/** Chooses the design that every page is about, on any of them: by its name before the verdicts. */
export async function judge(page: Page, name: string): Promise<void> {
  await page.locator('.verdict-design').click()
  await page.getByRole('menuitemradio', { name, exact: true }).click()
}

/** An entry of the menu of a design in the rail, as `Duplicate`. */
export async function designMenu(page: Page, name: string, entry: string): Promise<void> {
  await pane(page, 'Designs')
    .getByRole('button', { name: `Actions for ${name}`, exact: true })
    .click()
  await page.getByRole('menuitem', { name: entry, exact: true }).click()
}

/** Loss of a line of the budget, as `gap/mode mismatch`; small lines are unfolded first. */
export async function lineLoss(page: Page, id: string): Promise<string | null> {
  await unfoldBudget(page)
  return pane(page, 'Budget').locator(`tr[data-line="${id}"] td`).first().textContent()
}

export async function unfoldBudget(page: Page): Promise<void> {
  await total(page, 'Nominal').waitFor()
  const fold = pane(page, 'Budget').locator('tr[data-line="folded"] button')
  if ((await fold.count()) > 0 && (await fold.getAttribute('aria-expanded')) === 'false') await fold.click()
}

/** The cell with the loss of a total: `Nominal`, `RSS`, `P95`, `Worst case`. */
export const total = (page: Page, label: string): Locator =>
  pane(page, 'Budget').locator(`tr[data-total="${label}"] td`).first()

export const nominal = (page: Page): Locator => total(page, 'Nominal')

/** Selects the element of the path by a line of the budget that belongs to it. */
export async function selectByLine(page: Page, id: string): Promise<void> {
  await unfoldBudget(page)
  await pane(page, 'Budget').locator(`tr[data-line="${id}"] button`).click()
}

/** Chooses a view within a depth tab, as `Settings` or `Ripple`. */
export async function showView(page: Page, name: string): Promise<void> {
  await page
    .getByRole('group', { name: /^Views of / })
    .getByRole('button', { name, exact: true })
    .click()
}

/** Tabs that share one place, with what they hold. */
const GROUPS = {
  Light: ['Reflections', 'Spectrum', 'Polarisation', 'Power'],
  Build: ['Clearance', 'Assembly', 'First light', 'Lifetime'],
} as const

/** Opens a depth tab, also one of those under Light or Build. */
export async function openTab(page: Page, name: string): Promise<void> {
  const group = (['Light', 'Build'] as const).find((each) => GROUPS[each].some((tab) => tab === name))
  await page.getByRole('tab', { name: group ?? name, exact: true }).click()
  if (group === undefined) return
  await page.getByRole('group', { name: group }).getByRole('button', { name, exact: true }).click()
}

const COLOUR_RULES = ['color-contrast', 'link-in-text-block'] as const

/** Rules to look by; and whether parts that were found in order before, with the very same markup in them and around them, are left out. */
interface FaultOptions {
  readonly rules?: 'all' | 'colour'
  readonly onlyNew?: boolean
}

/**
 * What axe-core finds wrong with the page once it has had its time to settle. Where the page is walked through in both themes, one of the walks needs
 * the rules of `colour` only: all others read what a theme does not change.
 */
export function faultsOf(page: Page, options: FaultOptions = {}): Promise<readonly string[]> {
  return lasting(() => faultsNow(page, options))
}

/** Parts of the page, none inside another, that stay the same while others change. */
const PARTS = 'header, .verdict-strip, .pane'

async function faultsNow(
  page: Page,
  { rules = 'all', onlyNew = false }: FaultOptions,
): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source)
  return page.evaluate(
    async ({ only, parts }) => {
      const at = window as unknown as { readonly axe: typeof axe; inOrder?: Set<string> }
      at.inOrder ??= new Set()
      const seen = at.inOrder
      const inTheme = `${only?.length ?? 'all'}, ${matchMedia('(prefers-color-scheme: dark)').matches}: `
      const around = (part: Element): string => {
        const above = part.parentElement
        return above === null ? inTheme : around(above) + (above.cloneNode(false) as Element).outerHTML
      }
      const markup = [...document.querySelectorAll(parts ?? 'no-part')].map(
        (part) => [part, around(part) + part.outerHTML] as const,
      )
      const { violations } = await at.axe.run(
        { include: document, exclude: markup.flatMap(([part, text]) => (seen.has(text) ? part : [])) },
        {
          resultTypes: ['violations'],
          ...(only === null ? {} : { runOnly: [...only] }),
        },
      )
      if (violations.length === 0) for (const [, text] of markup) seen.add(text)
      return violations.map((each) => `${each.id}: ${each.nodes[0]?.html}`)
    },
    { only: rules === 'colour' ? COLOUR_RULES : null, parts: onlyNew ? PARTS : null },
  )
}

/** A page has so long to settle, on a busy machine too. */
const SETTLED_MS = 30_000

/** What stays wrong once the page has had its time to settle. */
export async function lasting(check: () => Promise<readonly string[]>): Promise<readonly string[]> {
  const end = Date.now() + SETTLED_MS
  for (;;) {
    const found = await check()
    if (found.length === 0 || Date.now() > end) return found
    await new Promise((done) => setTimeout(done, 100))
  }
}

/** What axe-core finds on the page as it is, in one theme and then the other; it ends in the light one. */
export async function faultsInBothThemes(page: Page): Promise<readonly string[]> {
  const inTheme = (colorScheme: 'light' | 'dark') =>
    page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
  await inTheme('light')
  const light = await faultsOf(page)
  await inTheme('dark')
  const dark = await faultsOf(page, { rules: 'colour' })
  await inTheme('light')
  return [...light, ...dark.map((each) => `dark: ${each}`)]
}
