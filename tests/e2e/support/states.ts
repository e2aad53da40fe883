// Every screen in the states that are looked at one after another, in one sitting at the demo: what is asserted of all
// screens is asserted along this walk, and the pictures of the guide are taken on it.

import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { drop, textFile } from './drop'
import { INDEX_MAP_ROWS } from './indexMap'
import { OVERLAYS } from './overlays'
import { partRow, showFacetView, showPart } from './parts'
import { goTo, newEmpty, openTab, pane, selectDesign, showView } from './screen'
import { STRESS_TABLE } from './stressTable'

export interface ScreenState {
  readonly name: string
  readonly show: (page: Page) => Promise<void>
  /** Back to what the next state begins with. */
  readonly leave?: (page: Page) => Promise<void>
  /** The name of its picture in docs/guide/pictures. */
  readonly picture?: string
  /** Another view of the tab before it: in one column the pane is another one, which begins at its first view. */
  readonly isView?: true
}

async function run(page: Page, label: string): Promise<void> {
  const start = page.getByRole('button', { name: label, exact: true })
  await start.click()
  // The view of the result comes with the first run.
  await page.locator('.tab-panel .plot svg').first().waitFor()
  await start.waitFor()
}

const drawn = (page: Page) =>
  page.locator('.tab-panel .js-plotly-plot path').first().waitFor({ state: 'attached' })

/** The depth tabs of the design that the demo opens on, expanded; a view of a tab by its name. */
const DEPTHS: readonly ScreenState[] = [
  {
    name: 'Tolerance',
    picture: 'tolerance',
    show: async (page) => {
      await page.getByRole('button', { name: 'Expand' }).click()
      await page.locator('[data-figure="loss-curve"] svg, [data-figure] svg').nth(1).waitFor()
    },
  },
  { name: 'Yield before a run', show: (page) => openTab(page, 'Yield') },
  { name: 'Yield', picture: 'yield', show: (page) => run(page, 'Run yield') },
  { name: 'Yield, ranking', isView: true, show: (page) => showView(page, 'Tolerance ranking') },
  { name: 'Yield, allocation', isView: true, show: (page) => showView(page, 'Tolerance allocation') },
  { name: 'Yield, worst assemblies', isView: true, show: (page) => showView(page, 'Worst assemblies') },
  { name: 'Yield, settings', isView: true, show: (page) => showView(page, 'Settings') },
  { name: 'Array before a run', show: (page) => openTab(page, 'Array') },
  { name: 'Array', picture: 'array', show: (page) => run(page, 'Run array') },
  { name: 'Array, ranking', isView: true, show: (page) => showView(page, 'Tolerance ranking') },
  { name: 'Array, roll', isView: true, show: (page) => showView(page, 'Roll') },
  { name: 'Array, settings', isView: true, show: (page) => showView(page, 'Settings') },
  {
    name: 'Temperature',
    picture: 'temperature',
    show: async (page) => {
      await openTab(page, 'Temperature')
      await drawn(page)
    },
  },
  { name: 'Temperature, mount', isView: true, show: (page) => showView(page, 'Mount') },
  { name: 'Fields', show: (page) => openTab(page, 'Fields') },
  {
    name: 'Fields with a shape',
    show: async (page) => {
      await page.getByLabel('Mode shape of Standard single-mode fibre').selectOption('core')
      await page.locator('table[data-table="field-losses"]').waitFor()
    },
  },
  {
    name: 'Fields with a shape, intensity',
    isView: true,
    picture: 'fields',
    show: async (page) => {
      await showView(page, 'Intensity')
      await drawn(page)
      // The optimum of the new shape comes after the fields.
      await page.getByRole('button', { name: 'Apply optimum' }).waitFor()
    },
    leave: async (page) => {
      await page.getByLabel('Mode shape of Standard single-mode fibre').selectOption('gaussian')
      await page.getByText('All modes of this design are Gaussian').waitFor()
    },
  },
  { name: 'Reflections', picture: 'reflections', show: (page) => openTab(page, 'Reflections') },
  {
    name: 'Reflections, face angles',
    isView: true,
    show: async (page) => {
      await showView(page, 'Face angles')
      await drawn(page)
    },
  },
  { name: 'Reflections, ripple', isView: true, show: (page) => showView(page, 'Ripple') },
  { name: 'Reflections, coatings', isView: true, show: (page) => showView(page, 'Coatings') },
  {
    name: 'Spectrum',
    picture: 'spectrum',
    show: async (page) => {
      await openTab(page, 'Spectrum')
      await drawn(page)
    },
  },
  { name: 'Polarisation', picture: 'polarisation', show: (page) => openTab(page, 'Polarisation') },
  { name: 'Power', picture: 'power', show: (page) => openTab(page, 'Power') },
  { name: 'Clearance without a chip edge', show: (page) => openTab(page, 'Clearance') },
  {
    name: 'Clearance',
    picture: 'clearance',
    show: async (page) => {
      await page.getByRole('button', { name: 'Add chip edge' }).click()
      await page.getByRole('rowheader', { name: 'Smallest reachable gap' }).waitFor()
      await page.locator('.optimum[aria-busy="false"]').waitFor()
    },
  },
  {
    name: 'Clearance, outlines',
    isView: true,
    show: (page) => showView(page, 'Chip edge and outline'),
    leave: async (page) => {
      // In one column the pane is another one, and begins at its first view.
      await showView(page, 'Chip edge and outline')
      await page.getByRole('button', { name: 'Remove chip edge' }).click()
    },
  },
  { name: 'Assembly, steps', show: (page) => openTab(page, 'Assembly') },
  {
    name: 'Assembly',
    picture: 'assembly',
    show: async (page) => {
      await run(page, 'Run assembly')
      await showView(page, 'Result')
    },
  },
  { name: 'Assembly, cost by step', isView: true, show: (page) => showView(page, 'Cost by step') },
  { name: 'Assembly, step to improve', isView: true, show: (page) => showView(page, 'Step to improve') },
  {
    name: 'First light',
    picture: 'first-light',
    show: async (page) => {
      await openTab(page, 'First light')
      await page.getByRole('table', { name: 'Search', exact: true }).waitFor()
    },
  },
  { name: 'First light, capture range', isView: true, show: (page) => showView(page, 'Capture range') },
  { name: 'First light, station', isView: true, show: (page) => showView(page, 'Station') },
  { name: 'Lifetime before a test', show: (page) => openTab(page, 'Lifetime') },
]

const restore = (page: Page) => page.getByRole('button', { name: 'Restore' }).click()

/** What the state with open folds has opened; sizes in between may have closed it. */
async function closeFolds(page: Page): Promise<void> {
  const open = pane(page, 'Inspector')
    .locator('details[open] > summary', { hasText: 'Face plane and pointing' })
    .or(page.locator('button[aria-expanded="true"][aria-label^="Source and tolerance of Gap"]'))
  await expect
    .poll(async () => {
      if ((await open.count()) > 0) await open.first().click()
      return open.count()
    })
    .toBe(0)
}

/** The Design screen of each family, and what opens on it. */
const DESIGNS: readonly ScreenState[] = [
  {
    name: 'Design, taper chip',
    picture: 'design',
    show: (page) => page.locator('.tolerance-map canvas').waitFor(),
  },
  ...[
    ['Cleaved fibre, dry', 'design-cleaved'],
    ['High-NA stub, bonded', 'design-stub'],
    ['Lensed fibre', 'design-lensed'],
    ['Two-lens relay with isolator', 'design-relay'],
    ['On-chip taper, bonded', 'design-on-chip'],
  ].map(
    ([name = '', picture = '']): ScreenState => ({
      name: `Design, ${name}`,
      picture,
      show: async (page) => {
        await selectDesign(page, name)
        await page.getByRole('heading', { level: 1, name, exact: true }).waitFor({ state: 'attached' })
        await page.locator('.tolerance-map canvas').waitFor()
      },
    }),
  ),
  {
    name: 'Design, sources and folds open',
    show: async (page) => {
      await selectDesign(page, 'SSC chip')
      // A fold of the design before it would be closed with it.
      await pane(page, 'Inspector').getByText('SSC chip to facet', { exact: true }).waitFor()
      await page.getByText('Face plane and pointing').click()
      await page.getByRole('button', { name: /^Source and tolerance of Gap/ }).click()
      await page.getByText('Plane of the face angles').first().waitFor()
    },
    leave: closeFolds,
  },
]

const PAGES: readonly ScreenState[] = [
  { name: 'Requirements', picture: 'requirements', show: (page) => goTo(page, 'Requirements') },
  {
    name: 'Parts',
    picture: 'parts',
    show: async (page) => void (await showPart(page, 'Standard single-mode fibre')),
  },
  {
    name: 'Parts, several selected',
    show: async (page) => {
      await partRow(page, 'High-NA bridge fibre').click({ modifiers: ['Control'] })
      await page.getByText('1 selected').waitFor()
    },
  },
  {
    name: 'Parts, a tolerance for several',
    show: async (page) => {
      await page.getByRole('button', { name: 'Set tolerance…' }).click()
      await page.getByRole('dialog', { name: /^Set tolerance of / }).waitFor()
    },
    leave: (page) => page.keyboard.press('Escape'),
  },
  {
    name: 'the catalogue',
    picture: 'catalogue',
    show: async (page) => {
      await page.getByRole('button', { name: 'Catalogue', exact: true }).click()
      await page
        .getByRole('button', { name: /^Copy ITU-T G.652.D/ })
        .first()
        .waitFor()
    },
  },
  {
    name: 'a cross-section',
    picture: 'cross-section',
    show: async (page) => {
      await showFacetView(page, 'Silicon-nitride facet', 'Waveguide cross-section')
      await page.getByLabel('Sidewall angle (90° = vertical)').first().waitFor()
    },
  },
  ...['Solved mode', 'Sweep'].map(
    (name): ScreenState => ({
      name: `a cross-section, ${name.toLowerCase()}`,
      show: (page) => page.getByRole('tab', { name, exact: true }).click(),
    }),
  ),
  {
    name: 'the taper behind a facet',
    picture: 'taper',
    show: async (page) => {
      await page.getByRole('tab', { name: 'Sweep', exact: true }).click()
      await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
      await page.getByRole('tab', { name: 'Taper', exact: true }).click()
      const taper = page.getByRole('region', { name: 'Taper', exact: true })
      await taper.getByRole('button', { name: 'Add routing width' }).click()
      await taper.getByRole('button', { name: 'Add taper length' }).click()
      await taper.getByRole('button', { name: 'Solve along the taper' }).click()
      await taper.getByRole('button', { name: 'Apply taper loss' }).waitFor({ timeout: 60_000 })
    },
  },
  {
    name: 'an index map without a table',
    show: async (page) => {
      await page.getByRole('tab', { name: 'Waveguide cross-section', exact: true }).click()
      await page.getByLabel('Index profile', { exact: true }).first().selectOption('index map')
      await page.getByRole('button', { name: /^Open index map/ }).waitFor()
    },
  },
  {
    name: 'an index map',
    picture: 'index-map',
    show: async (page) => {
      const chooser = page.waitForEvent('filechooser')
      await page.getByRole('button', { name: /^Open index map/ }).click()
      await (await chooser).setFiles({
        name: 'map.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(INDEX_MAP_ROWS.join('\n')),
      })
      await page.getByText(/through its peak: 1\.49/).waitFor()
      await drawn(page)
    },
    // The choice and the table, so that what follows is the demo as it was.
    leave: async (page) => {
      for (let undone = 0; undone < 2; undone++) await page.keyboard.press('Control+z')
      await page.getByLabel('Sidewall angle (90° = vertical)').first().waitFor()
    },
  },
  {
    name: 'an end of an SSC chip without a cross-section',
    show: async (page) => {
      await showPart(page, 'SSC chip, 10 to 3.3 µm')
      await page.getByRole('tab', { name: 'Waveguide cross-section', exact: true }).click()
      await page.getByRole('button', { name: 'Define cross-section' }).waitFor()
    },
  },
  {
    name: 'an end of an SSC chip',
    picture: 'chip-end',
    show: async (page) => {
      await page.getByRole('button', { name: 'Define cross-section' }).click()
      await page.getByLabel('Index-step full width at 1/e', { exact: true }).waitFor()
      await drawn(page)
    },
  },
  {
    name: 'an SSC chip with an end by fields',
    show: async (page) => {
      await page.getByRole('tab', { name: 'SSC chip', exact: true }).click()
      await page.getByLabel('Mode shape, input end').waitFor()
    },
    leave: async (page) => {
      await page.keyboard.press('Control+z')
      await expect.poll(() => page.getByLabel('Mode shape, input end').inputValue()).toBe('gaussian')
    },
  },
  {
    name: 'Compare',
    picture: 'compare',
    show: async (page) => {
      await goTo(page, 'Compare')
      await page.getByRole('table').first().waitFor()
    },
  },
  {
    name: 'Sizing',
    picture: 'sizing',
    show: async (page) => {
      await goTo(page, 'Sizing')
      await page.locator('.js-plotly-plot, .plot svg').first().waitFor()
    },
  },
  {
    name: 'Order',
    picture: 'order',
    show: async (page) => {
      await goTo(page, 'Order')
      await page.getByRole('tab', { name: 'Purchase specification' }).click()
      await page.getByRole('region', { name: 'Purchase specification' }).waitFor()
    },
  },
  {
    name: 'Measurements',
    show: async (page) => {
      await goTo(page, 'Measurements')
      await page.getByRole('button', { name: 'Open measurement…' }).waitFor()
    },
  },
  {
    name: 'a measurement',
    picture: 'measurements',
    show: async (page) => {
      await page.getByRole('button', { name: 'Offset scan over the facet', exact: true }).click()
      await page.getByRole('button', { name: 'Import', exact: true }).click()
      await page.getByText('Uncertainty budget').waitFor()
    },
  },
  {
    name: 'measured vs predicted loss',
    show: async (page) => {
      await page.getByRole('button', { name: /^Measured vs predicted loss/ }).click()
      await page.getByRole('heading', { name: 'Measured vs predicted loss' }).first().waitFor()
    },
  },
  {
    name: 'Review',
    picture: 'review',
    show: async (page) => {
      await goTo(page, 'Review')
      await page.locator('.review-sheet').waitFor()
    },
  },
  ...['Sections', 'Revisions', 'Files'].map(
    (name): ScreenState => ({
      name: `Review, ${name.toLowerCase()}`,
      show: (page) => page.getByRole('tab', { name, exact: true }).click(),
    }),
  ),
  {
    name: 'a lot',
    picture: 'lot',
    show: async (page) => {
      await goTo(page, 'Measurements')
      await drop(page, textFile('lot.csv', LOT_TABLE))
      await page.getByRole('button', { name: 'Import', exact: true }).click()
      await page.getByRole('table', { name: 'Variance components' }).waitFor()
    },
  },
  {
    name: 'a stress test',
    show: async (page) => {
      await drop(page, textFile('aging.csv', STRESS_TABLE))
      await page.getByRole('button', { name: 'Import', exact: true }).click()
      await page.getByRole('table', { name: 'Stress test' }).waitFor()
    },
  },
  {
    name: 'Lifetime',
    picture: 'lifetime',
    show: async (page) => {
      await goTo(page, 'Design')
      await openTab(page, 'Lifetime')
      await page.getByRole('button', { name: 'Expand' }).click()
      await page.getByRole('button', { name: /^Use aging/ }).click()
      await showView(page, 'Law and service')
      await page.getByRole('button', { name: 'Add Arrhenius acceleration' }).click()
      await showView(page, 'Result')
    },
  },
  { name: 'Lifetime, laws compared', isView: true, show: (page) => showView(page, 'Laws compared') },
  { name: 'Lifetime, law and service', isView: true, show: (page) => showView(page, 'Law and service') },
]

/** Eight assemblies of two channels in two batches, around 1.1 dB. */
const LOT_TABLE = [
  'Assembly;Channel;Insertion loss [dB];Batch',
  ...Array.from(
    { length: 16 },
    (_, i) =>
      `SN-${1 + (i >> 1)};${1 + (i % 2)};${(1 + 0.11 * ((i * 7) % 5) - 0.05 * (i % 2)).toFixed(2)};W${1 + (i >> 3)}`,
  ),
].join('\n')

/** A project without a design: what every page then says is the next step. */
const WITHOUT_DESIGN: readonly ScreenState[] = [
  {
    name: 'Design without a design',
    show: async (page) => {
      await newEmpty(page)
      await goTo(page, 'Design')
      await page.getByText('This project has none yet').waitFor()
    },
  },
  {
    name: 'measured vs predicted loss without a design',
    show: async (page) => {
      await goTo(page, 'Measurements')
      await page.getByRole('button', { name: /^Measured vs predicted loss/ }).click()
      await page.getByText('This project has none yet').waitFor()
    },
  },
]

export const STATES: readonly ScreenState[] = [
  ...DESIGNS,
  ...OVERLAYS,
  ...DEPTHS,
  { name: 'Design, restored', show: restore },
  ...PAGES,
  ...WITHOUT_DESIGN,
]
