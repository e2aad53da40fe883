// The demo with two designs and a facet known by its mode only, as a job that describes its cross-section begins.

import type { Browser } from 'playwright-core'
import { projectText } from '../../../src/model/index'
import { twoDesigns } from '../../support/twoDesigns'
import { type OpenApp, openApp } from './browser'
import { drop, textFile } from './drop'

const NAME = 'Plain demo'

/** The app open at it, on the page of parts. */
export async function openPlainDemo(browser: Browser): Promise<OpenApp> {
  const opened = await openApp(browser, { at: 'parts' })
  const project = { ...twoDesigns(), name: NAME }
  const facets = project.facets.slice(0, 1).map(({ crossSection: _, ...facet }) => facet)
  await drop(opened.page, textFile('plain.json', projectText({ ...project, facets })))
  await opened.page.getByRole('button', { name: `Project: ${NAME}` }).waitFor()
  return opened
}
