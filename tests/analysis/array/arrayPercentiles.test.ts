// Percentiles of the worst channel. All channels share both offsets, normal with sigma 1 um: the loss is k r^2 with r after Rayleigh, and
// k = 0.160612 dB/um^2 at MFD 10.4 um (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).

import { expect, test } from 'vitest'
import { arraySteps, runArray } from '../../../src/analysis/array/runArray'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { NO_LIGHT_DB } from '../../../src/optics/index'
import { matchedProject, normal } from '../yield/cases'

const offset = quantityOf(0, 'um', 'estimate', normal(1))
const one = matchedProject(10.4, 0.5, { offsetX: offset, offsetY: offset })
const project = { ...one, requirements: { ...one.requirements, channels: 2, pitch: quantityOf(127, 'um') } }

const percentiles = (samples: number) =>
  runArray(project, 'matched', { samples }).aims[0]?.worstChannelPercentiles ?? []

const trueDb = (share: number) => -0.160612 * 2 * Math.log(1 - share)

test('are those of the Rayleigh distribution, inside their intervals', () => {
  const found = percentiles(4096)
  expect(found.map(({ share }) => share)).toEqual([0.5, 0.95, 0.99])
  for (const { share, lossDb, lowDb, highDb } of found) {
    expect(lossDb / trueDb(share)).toBeCloseTo(1, 1)
    expect(lowDb).toBeLessThan(trueDb(share))
    expect(highDb).toBeGreaterThan(trueDb(share))
    // Of 4096 independent samples the 99th percentile is known within a tenth or so.
    expect(highDb / lowDb).toBeLessThan(1.25)
  }
})

test('have no upper limit where more than one run in forty has every sample below them', () => {
  // 0.99^64 is 0.53, 0.5^64 is nothing.
  const [median, , highest] = percentiles(64)
  expect(highest?.highDb).toBe(NO_LIGHT_DB)
  expect(highest?.lowDb).toBeGreaterThan(0)
  expect(median?.highDb).toBeLessThan(2 * trueDb(0.5))
})

test('have no lower limit where every sample may lie above them', () => {
  // 0.5^3 is an eighth.
  expect(percentiles(3)[0]?.lowDb).toBe(0)
})

test('a run pauses now and then, not after every sample, and its shares rise to 1 at the most', () => {
  const shares = [...arraySteps(project, 'matched', { samples: 512 })]
  expect(shares.length).toBeGreaterThan(4)
  expect(shares.length).toBeLessThan(256)
  expect(shares).toEqual(shares.toSorted((a, b) => a - b))
  expect(shares.at(-1)).toBeLessThanOrEqual(1)
})
