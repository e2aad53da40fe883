// The demo with two designs and a facet known by its mode only, as a job that describes its cross-section begins.

import type { Page } from 'playwright-core'
import { projectText } from '../../../src/model/index'
import { twoDesigns } from '../../support/twoDesigns'
import { drop, textFile } from './drop'

export async function openPlainDemo(page: Page): Promise<void> {
  const project = twoDesigns()
  const facets = project.facets.slice(0, 1).map(({ crossSection: _, ...facet }) => facet)
  await drop(page, textFile('plain.json', projectText({ ...project, facets })))
  await page.locator('li[data-design="lensed-fibre"]').waitFor({ state: 'detached' })
}
