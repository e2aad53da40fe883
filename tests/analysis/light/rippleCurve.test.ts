// The ripple of a gap drawn over the gap, against the period and the size that two flat faces have.

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { rippleCurve } from '../../../src/analysis/light/rippleCurve'
import { familiesProject } from '../support/families'

test('three fringes about the gap, half a wavelength each, and a ripple that fades as the gap opens', () => {
  const project = familiesProject()
  const [ripple] = evaluateCandidate(project, 'cleaved-dry').ripples
  if (ripple === undefined) throw new Error('no ripple')
  const result = rippleCurve(project, 'cleaved-dry', ripple)
  if (!result.ok || result.value === null) throw new Error('no curve')
  const { gapUm, gapsUm, lossesDb, singleDb, fadeGapsUm, fadeDb } = result.value
  // 1653.7 nm in air of 1.00027: fringes of 0.82663 µm; where half of three of them goes below contact the curve begins there.
  const period = 1.6537 / 1.00027 / 2
  const from = Math.max(0, gapUm - 1.5 * period)
  expect(gapsUm[0]).toBeCloseTo(from, 4)
  expect((gapsUm.at(-1) ?? 0) - (gapsUm[0] ?? 0)).toBeCloseTo(3 * period, 4)
  const ripples = lossesDb.map((loss, i) => loss - (singleDb[i] ?? 0))
  const tops = [...ripples.keys()].filter(
    (i) => i > 0 && ripples[i]! > (ripples[i - 1] ?? 9) && ripples[i]! >= (ripples[i + 1] ?? 9),
  )
  expect(tops.length).toBe(3)
  const spacing = (gapsUm[tops[1]!] ?? 0) - (gapsUm[tops[0]!] ?? 0)
  expect(Math.abs(spacing / period - 1)).toBeLessThan(0.05)
  expect(Math.abs((Math.max(...ripples) - Math.min(...ripples)) / ripple.peakToPeakDb - 1)).toBeLessThan(0.1)
  expect([fadeGapsUm[0], fadeGapsUm.at(-1)]).toEqual([0, Math.max(60, 3 * gapUm)])
  for (let i = 1; i < fadeDb.length; i++) expect(fadeDb[i]).toBeLessThan(fadeDb[i - 1]!)
})
