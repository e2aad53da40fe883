// Light in the demo: angled faces, fringes, coatings, spectrum, polarisation, power; on screen, drawing, order and sheet.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { refractiveIndex } from '../../src/optics/index'
import { openApp, sharedBrowser } from './support/browser'
import { showPart } from './support/parts'
import { choose, goTo, openTab, showView } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true }).first()
  await field.fill(text)
  await field.press('Enter')
}

const verdict = (page: Page, id: string) => page.locator(`[data-verdict="${id}"]`)
const fact = (page: Page, name: string) => page.locator(`[data-fact="${name}"]`).first()

describe('angled faces', () => {
  test('turn the return loss from not met to met, end the ripple, and put the pointing on drawing and order', async () => {
    const { page, complaints } = await openApp(browser)
    await openTab(page, 'Reflections')
    const expected = evaluateCandidate(demoProject(), 'cleaved-dry')
    await expect
      .poll(() => page.locator('tr[data-total="Return loss"] td').first().textContent())
      .toBe(`${expected.returnLoss.fibre.incoherentDb?.toFixed(1)} dB`)
    await expect.poll(() => verdict(page, 'return-loss-fibre').getAttribute('data-status')).toBe('not met')
    await showView(page, 'Ripple')
    const square = expected.ripples[0]?.peakToPeakDb ?? 0
    await expect.poll(() => fact(page, 'ripple').textContent()).toBe(`${square.toFixed(2)} dB`)
    await expect.poll(() => page.locator('[data-ray]').count()).toBe(2)
    await expect
      .poll(() => page.locator('[data-ray="near"] text').textContent())
      .toBe('fibre-side face 14.8 dB')

    // Parallel oblique faces: no light comes back, but the transmission keeps its fringes (V. Shah et al., 1989).
    await type(page, 'Angle, fibre side', '8 deg')
    await type(page, 'Angle, chip side', '8 deg')
    await expect.poll(() => verdict(page, 'return-loss-fibre').getAttribute('data-status')).toBe('met')
    await page.getByText('Both faces have the same angle').waitFor()
    await expect
      .poll(() => page.locator('[data-ray="near"] text').textContent())
      .toBe('fibre-side face 57.5 dB')

    // Angled against each other, far enough apart for the rims: the ripple is gone as well.
    const bar = page.locator('.drawn-bar path').last()
    const scaleBar = async () =>
      (await bar.getAttribute('d')) + ((await bar.locator('..').textContent()) ?? '')
    const [gapBefore, barBefore] = [
      await page.getByLabel('Gap', { exact: true }).first().inputValue(),
      await scaleBar(),
    ]
    await type(page, 'Gap', '30')
    await type(page, 'Angle, chip side', '-8 deg')
    await expect.poll(() => fact(page, 'ripple').textContent()).toContain('Negligible ripple')
    await expect.poll(() => verdict(page, 'return-loss-fibre').getAttribute('data-status')).toBe('met')
    // The gap was entered wider than the drawing was set: it follows, with its rays and their labels inside.
    const inside = async (selector: string) => {
      const sheet = await page.getByRole('application').last().boundingBox()
      const box = await page.locator(selector).boundingBox()
      if (sheet === null || box === null) return false
      const across = box.x >= sheet.x && box.x + box.width <= sheet.x + sheet.width
      return across && box.y >= sheet.y && box.y + box.height <= sheet.y + sheet.height
    }
    for (const text of ['[data-ray="near"] text', '[data-ray="far"] text', '[data-pointing] text']) {
      await expect.poll(() => inside(text), { message: text }).toBe(true)
    }
    await expect.poll(scaleBar).not.toBe(barBefore)
    await type(page, 'Gap', gapBefore)
    await expect.poll(scaleBar).toBe(barBefore)
    // Snell by hand: 8 degrees of n = 1.4428 leave at 11.58, of n = 1.457 at 11.70 degrees; each turns by the difference.
    await expect.poll(() => page.locator('[data-pointing] text').textContent()).toBe('pointing −7.28°')

    await goTo(page, 'Order')
    await page.getByRole('region', { name: 'Order list' }).getByText('axis tilted by −7.28° in x').waitFor()
    expect(complaints).toEqual([])
  })

  test('in an index gel have no ripple either', async () => {
    const { page, complaints } = await openApp(browser)
    await openTab(page, 'Reflections')
    await showView(page, 'Ripple')
    await type(page, 'Angle, fibre side', '8 deg')
    await type(page, 'Angle, chip side', '8 deg')
    await choose(page, 'Gap medium', 'Index gel')
    await expect.poll(() => fact(page, 'ripple').textContent()).toContain('Negligible ripple')
    await expect.poll(() => verdict(page, 'return-loss-fibre').getAttribute('data-status')).toBe('met')
    expect(complaints).toEqual([])
  })
})

describe('coatings', () => {
  // A quarter wave, 1653.7 / 4 / 1.2 = 344.5 nm: R = [(n1 n3 - n2^2) / (n1 n3 + n2^2)]^2 (Born and Wolf, sect. 1.6.4).
  test('entered as films remove the reflection of a face', async () => {
    const { page, complaints } = await openApp(browser)
    const product = refractiveIndex('fused silica', 1.6537) * refractiveIndex('air', 1.6537)
    const reflectance = ((product - 1.2 ** 2) / (product + 1.2 ** 2)) ** 2
    await openTab(page, 'Reflections')
    await showView(page, 'Coatings')
    await page.getByLabel('Coating of the fibre-side face').selectOption('thin films')
    await type(page, 'Index of film 1', '1.2')
    await type(page, 'Thickness of film 1', '344.5 nm')
    await showView(page, 'Return loss')
    await expect
      .poll(() => page.locator('[data-reflection="gap/near"] td').nth(1).textContent())
      .toBe(`${(-10 * Math.log10(reflectance)).toFixed(1)} dB`)
    await showView(page, 'Coatings')
    await type(page, 'Thickness of film 1', '-5')
    await page.getByText('film thickness is −5 nm; must be 0 to 100000 nm').waitFor()
    expect(complaints).toEqual([])
  })
})

describe('the spectrum', () => {
  test('is drawn over the band, and refuses by name what the dispersion data do not cover', async () => {
    const { page, complaints } = await openApp(browser)
    await openTab(page, 'Spectrum')
    const spectrum = page.getByRole('region', { name: 'Spectrum' })
    await spectrum.locator('.plot path.js-line').first().waitFor({ state: 'attached' })
    const worstDb = evaluateCandidate(demoProject(), 'cleaved-dry').band?.worstDb ?? Number.NaN
    await spectrum.getByText(`Maximum ${worstDb.toFixed(2)} dB at 1656.7 nm`).waitFor()
    await goTo(page, 'Requirements')
    await type(page, 'Wavelength', '2450 nm')
    await goTo(page, 'Design')
    await openTab(page, 'Spectrum')
    await page.getByLabel('Wavelength range', { exact: true }).selectOption('± 100 nm')
    await spectrum.getByText('Air, dry', { exact: false }).waitFor()
    await expect.poll(() => spectrum.getByRole('alert').textContent()).toContain('must be 230 to 2500 nm')
    expect(complaints).toEqual([])
  })
})

describe('polarisation', () => {
  test('a TM mode of the facet makes a polarisation-dependent loss, and standard fibre cannot keep polarisation', async () => {
    const { page, complaints } = await openApp(browser)
    await openTab(page, 'Polarisation')
    await fact(page, 'loose').waitFor()
    await expect.poll(() => fact(page, 'pdl').textContent()).toBe('0.00 dB')
    const facet = await showPart(page, 'Silicon-nitride facet')
    await facet.getByRole('button', { name: 'Add TM mode' }).click()
    await type(page, 'TM, MFD x', '3')
    await type(page, 'TM, MFD y', '2.2')
    await goTo(page, 'Design')
    await openTab(page, 'Polarisation')
    const project = demoProject()
    const [own] = project.facets
    if (own !== undefined) {
      own.tm = {
        mfdX: { value: 3, unit: 'um', provenance: 'estimate' },
        mfdY: { value: 2.2, unit: 'um', provenance: 'estimate' },
      }
    }
    const { dependentLossDb } = evaluateCandidate(project, 'cleaved-dry').polarisation
    await expect.poll(() => fact(page, 'pdl').textContent()).toBe(`${dependentLossDb.toFixed(2)} dB`)
    await page.getByRole('row', { name: /^Nominal, worst polarisation/ }).waitFor()
    expect(complaints).toEqual([])
  })
})

describe('power', () => {
  test('is shown with the cautions where it is entered and on the sheet, against the limits set', async () => {
    const { page, complaints } = await openApp(browser)
    await openTab(page, 'Power')
    const cautions = page
      .getByRole('region', { name: 'Power' })
      .getByRole('complementary', { name: 'Cautions' })
    await cautions.getByText('IEC 60825-1').waitFor()
    await page.getByRole('button', { name: 'Add launch power' }).click()
    await type(page, 'Launch power', '50 mW')
    await page.getByRole('button', { name: 'Add irradiance limit of end faces and coatings' }).click()
    await type(page, 'Irradiance limit of end faces and coatings', '100 kW/cm²')
    await expect.poll(() => verdict(page, 'irradiance').getAttribute('data-status')).toBe('not met')
    await goTo(page, 'Review')
    const sheet = page.locator('.sheet-preview')
    await sheet.getByText('IEC 60825-1').waitFor()
    await sheet.getByText('Optical power', { exact: true }).first().waitFor()
    await sheet.getByRole('row', { name: /^Launched 50 / }).waitFor()
    expect(complaints).toEqual([])
  })
})
