// Where no array passes, or every one, the ranking goes by the percentile of the worst channel. All channels share both
// offsets, normal with sigma 1 um, so the loss is k (x^2 + y^2); k = 0.160612 dB/um^2 at MFD 10.4 um (Marcuse 1977), and
//   P(a^2 u^2 + b^2 v^2 <= q) = 1/(2 pi) Int (1 - exp(-q / (2 (a^2 cos^2 + b^2 sin^2)))) dt   (two normals in polar form)

import { expect, test } from 'vitest'
import { runArray } from '../../../src/analysis/array/runArray'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { matchedProject, normal } from '../yield/cases'

const DB_PER_UM2 = 0.160612
const SHARE = 0.95

function shareWithin(q: number, a: number, b: number): number {
  const steps = 2000
  let sum = 0
  for (let i = 0; i < steps; i++) {
    const t = (2 * Math.PI * (i + 0.5)) / steps
    sum += 1 - Math.exp(-q / (2 * ((a * Math.cos(t)) ** 2 + (b * Math.sin(t)) ** 2)))
  }
  return sum / steps
}

function percentileDb(a: number, b: number): number {
  let [low, high] = [0, 50]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (shareWithin(middle, a, b) < SHARE) low = middle
    else high = middle
  }
  return DB_PER_UM2 * low
}

test.each([1e-5, 50])(
  'at a limit of %d dB halving either offset lowers the percentile by what theory says',
  (limitDb) => {
    const offset = quantityOf(0, 'um', 'estimate', normal(1))
    const project = matchedProject(10.4, limitDb, { offsetX: offset, offsetY: offset })
    const { ranking, aims } = runArray(
      { ...project, requirements: { ...project.requirements, channels: 4, pitch: quantityOf(127, 'um') } },
      'matched',
      { samples: 2048 },
    )
    expect(aims[0]?.allChannelsYield).toBe(limitDb > 1 ? 1 : 0)
    expect(ranking.tolerances.map(({ label }) => label).sort()).toEqual(['offset x', 'offset y'])
    const gain = percentileDb(1, 1) - percentileDb(1, 0.5)
    for (const { yieldGainHalved, percentileGainHalvedDb } of ranking.tolerances) {
      expect(yieldGainHalved).toBe(0)
      expect(Math.abs(percentileGainHalvedDb - gain)).toBeLessThan(0.05)
    }
  },
)

test('where every array passes, the tolerance with the greater effect on the percentile comes first', () => {
  const of = (sigmaX: number, sigmaY: number) => {
    const [offsetX, offsetY] = [sigmaX, sigmaY].map((sigma) => quantityOf(0, 'um', 'estimate', normal(sigma)))
    if (offsetX === undefined || offsetY === undefined) throw new Error('two offsets')
    const project = matchedProject(10.4, 50, { offsetX, offsetY })
    const requirements = { ...project.requirements, channels: 2, pitch: quantityOf(127, 'um') }
    return runArray({ ...project, requirements }, 'matched', { samples: 512 }).ranking.tolerances.map(
      ({ label }) => label,
    )
  }
  expect(of(0.6, 1)).toEqual(['offset y', 'offset x'])
  expect(of(1, 0.6)).toEqual(['offset x', 'offset y'])
})
