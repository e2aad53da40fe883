// A relay with lenses of the catalogue: its aberration in the budget, its rays on the drawing.

import type { Browser } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { CATALOGUE_LENSES } from '../../src/model/catalogue/lenses'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import { familiesProject, relayElement } from '../analysis/support/families'
import { openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

function ballRelay(): Project {
  const lens = (id: string) => {
    const found = CATALOGUE_LENSES.find((each) => each.id === id)
    if (found === undefined) throw new Error(`no lens ${id}`)
    return found
  }
  const relay = relayElement({
    lens1Id: 'plano-500-silica',
    lens2Id: 'ball-500-sapphire',
    frontGap: quantityOf(860, 'um'),
    backGap: quantityOf(37, 'um'),
  })
  const project = familiesProject(relay)
  return {
    ...project,
    lenses: [...project.lenses, lens('plano-500-silica'), lens('ball-500-sapphire')],
    candidates: project.candidates.filter(({ id }) => id === 'relay'),
  }
}

describe('a ball lens of the catalogue', () => {
  test('shows its aberration in the budget, and its rays on the drawing', async () => {
    const project = ballRelay()
    const { lines } = evaluateCandidate(project, 'relay')
    const aberration = lines.find(({ kind }) => kind === 'aberration')?.lossDb ?? 0
    expect(aberration).toBeGreaterThan(0.3)
    const { page, complaints } = await openApp(browser)
    await drop(page, textFile('ball.json', JSON.stringify(project)))
    await page.locator('.drawn-ray').first().waitFor()
    await expect.poll(() => page.locator('.drawn-ray').count()).toBeGreaterThanOrEqual(18)
    await expect
      .poll(() => page.getByRole('region', { name: 'Budget', exact: true }).textContent())
      .toContain('Aberration of the lenses')
    expect(complaints).toEqual([])
  })
})
