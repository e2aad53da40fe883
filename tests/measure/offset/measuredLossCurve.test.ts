import { expect, test } from 'vitest'
import { measuredLossCurve } from '../../../src/measure/offset/measuredLossCurve'
import type { OffsetScanResult } from '../../../src/measure/offset/offsetScanMfd'

// Shares of 1, 1/2, 1/4 and 1/10 of the peak above a background of 10; a scatter of 1 % of the peak is 0.01 / share of the signal,
// times 10 / ln 10 in dB.
const scan = {
  profile: {
    positionUm: Float64Array.of(2, 3, 4, 5),
    power: Float64Array.of(110, 60, 35, 20),
  },
  peakPower: 100,
  backgroundPower: 10,
  residualRms: 0.01,
  centreUm: 2,
} as unknown as OffsetScanResult

test('a loss curve holds what is within 10 dB of the peak, each with the scatter of the scan at its own power', () => {
  const { positionUm, lossDb, standardDb } = measuredLossCurve(scan, null, true)
  expect(positionUm).toEqual([0, 1, 2])
  const dB = (share: number) => -10 * Math.log10(share)
  for (const [i, share] of [1, 1 / 2, 1 / 4].entries()) {
    expect(lossDb[i]).toBeCloseTo(dB(share), 12)
    expect(standardDb[i]).toBeCloseTo(4.342944819 * (0.01 / share), 9)
  }
  const referred = measuredLossCurve(scan, 200, false)
  expect(referred.positionUm).toEqual([2, 3, 4])
  expect(referred.lossDb[0]).toBeCloseTo(dB(1 / 2), 12)
})
