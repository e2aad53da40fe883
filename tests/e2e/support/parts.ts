// The Parts page as a user works with it: a row of the list, the part next to it, the views of a facet.

import type { Locator, Page } from 'playwright-core'
import { goTo } from './screen'

/** The row of a part in the list, by its whole name. */
export const partRow = (page: Page, name: string): Locator =>
  page
    .getByRole('listbox', { name: 'Parts' })
    .getByRole('option')
    .filter({ has: page.getByText(name, { exact: true }) })

/** Goes to the part and shows it; answers with the part in detail. */
export async function showPart(page: Page, name: string): Promise<Locator> {
  await goTo(page, 'Parts')
  await page.getByRole('button', { name: 'In this project', exact: true }).click()
  await partRow(page, name).click()
  const part = page.getByRole('article', { name, exact: true })
  await part.waitFor()
  return part
}

/** Shows a view of a facet: `Facet`, `Waveguide cross-section`, `Solved mode` or `Sweep`. */
export async function showFacetView(page: Page, name: string, view: string): Promise<void> {
  await showPart(page, name)
  await page.getByRole('tab', { name: view, exact: true }).click()
}

/** Adds a new part of a kind, as `Fibre`; it is shown in detail. */
export async function addPart(page: Page, kind: string): Promise<void> {
  await goTo(page, 'Parts')
  await page.getByRole('button', { name: 'Add part' }).click()
  await page.getByRole('menuitem', { name: kind, exact: true }).click()
}

export async function copyFromCatalogue(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Catalogue', exact: true }).click()
  await page
    .getByRole('button', { name: `Copy ${name}`, exact: true })
    .first()
    .click()
}
