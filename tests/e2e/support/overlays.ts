// What lies over the Design screen, one after another: menus, dialogs, the tour, a tooltip, a refused entry. Each is closed again.

import type { Page } from 'playwright-core'
import { drop, textFile } from './drop'
import { designMenu, designRow, field, projectMenu, type } from './screen'
import type { ScreenState } from './states'

const closed = (page: Page) => page.keyboard.press('Escape')

async function dialog(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('dialog', { name }).waitFor()
  await page.getByText('Loading…').waitFor({ state: 'detached' })
}

async function helpMenu(page: Page, entry: RegExp): Promise<void> {
  await page.getByRole('button', { name: 'Help', exact: true }).click()
  await page.getByRole('menuitem', { name: entry }).click()
}

async function help(page: Page, entry: RegExp, title: string): Promise<void> {
  await helpMenu(page, entry)
  await dialog(page, title)
}

export const OVERLAYS: readonly ScreenState[] = [
  {
    name: 'the menu of the project',
    picture: 'project-menu',
    show: async (page) => {
      await page.getByRole('button', { name: /^Project: / }).click()
      await page.getByRole('menuitem', { name: 'Copy link' }).waitFor()
    },
    leave: closed,
  },
  {
    name: 'a new project',
    picture: 'new-project',
    show: async (page) => {
      await projectMenu(page, 'New')
      await dialog(page, 'New project')
    },
    leave: closed,
  },
  {
    name: 'the gallery of families',
    show: async (page) => {
      await page.getByRole('button', { name: 'Add a design' }).click()
      await dialog(page, 'Add a design')
    },
    leave: closed,
  },
  {
    name: 'the name of a design',
    show: async (page) => {
      await designRow(page, 'SSC chip').first().hover()
      await designMenu(page, 'SSC chip', 'Rename…')
      await dialog(page, 'Rename design')
    },
    leave: closed,
  },
  { name: 'the guide', show: (page) => help(page, /^Guide$/, 'Guide'), leave: closed },
  { name: 'the glossary', show: (page) => help(page, /^Glossary/, 'Glossary'), leave: closed },
  {
    name: 'the shortcuts',
    show: (page) => help(page, /^Keyboard shortcuts/, 'Keyboard shortcuts'),
    leave: closed,
  },
  {
    name: 'the tour',
    show: async (page) => {
      // Offered once; the menu has it ever after.
      const offer = page.getByRole('button', { name: 'Take the tour' })
      if (await offer.isVisible()) await offer.click()
      else await helpMenu(page, /^Guided tour/)
      await page.getByRole('button', { name: 'Skip tour' }).waitFor()
    },
    leave: (page) => page.getByRole('button', { name: 'Skip tour' }).click(),
  },
  {
    name: 'a refused entry and a tooltip',
    picture: 'refused-entry',
    show: async (page) => {
      await type(field(page, 'Gap'), 'wide')
      await page.getByRole('alert').first().waitFor()
      await page.locator('[data-verdict]').first().hover()
      await page.locator('[role="tooltip"]:popover-open').waitFor()
    },
    leave: async (page) => {
      await field(page, 'Gap').press('Escape')
      await page.mouse.move(0, 0)
    },
  },
  {
    name: 'a refused file',
    show: async (page) => {
      await drop(page, textFile('other.json', '{"format":"other"}'))
      await dialog(page, 'Action not completed')
    },
    leave: closed,
  },
]
