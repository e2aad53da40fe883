import { expect, test } from 'vitest'
import { gaussianity } from '../../../src/measure/fit/gaussianity'

const of = (values: readonly number[], peak = 10) => gaussianity(Float64Array.from(values), peak)

test('sizes and the correlation of neighbours are those of their definitions', () => {
  // Squares 1 + 4 + 9 + 0.25, products of neighbours -2 - 6 + 1.5.
  const found = of([1, -2, 3, 0.5])
  expect(found.residualRms).toBeCloseTo(Math.sqrt(14.25 / 4) / 10, 12)
  expect(found.largestResidual).toBeCloseTo(0.3, 12)
  expect(found.neighbourCorrelation).toBeCloseTo(-6.5 / 14.25, 12)
  expect(found.systematic).toBe(false)
  expect(found.sentence).toBe(
    'The mode is Gaussian to within 19 % of the peak (rms), 30 % at most; the residuals look random.',
  )
  expect(of([0, 0, 0]).neighbourCorrelation).toBe(0)
})

test('residuals are systematic where neighbours agree beyond three deviations of white noise, 3 / sqrt(n), and by 0.01 % of the peak', () => {
  const alike = (n: number, size: number) => new Array<number>(n).fill(size)
  /** Runs of one sign, `length` long: of n - 1 neighbours those at a change of sign are opposed. */
  const runs = (n: number, length: number) =>
    Array.from({ length: n }, (_, i) => (Math.floor(i / length) % 2 === 0 ? 1 : -1))
  expect(of(alike(16, -1)).systematic).toBe(true) // 15 / 16 of 0.75
  expect(of(runs(16, 4)).systematic).toBe(false) // 9 / 16 of 0.75
  expect(of(runs(64, 4)).systematic).toBe(true) // 33 / 64 of 0.375
  expect(of(runs(64, 1)).systematic).toBe(false)
  expect(of(alike(16, 1.1e-3)).systematic).toBe(true)
  expect(of(alike(16, 0.9e-3)).systematic).toBe(false)
  expect(of(alike(16, -1)).sentence).toBe(
    'The mode departs from a Gaussian by 10 % of the peak (rms), 10 % at most; the residuals are systematic: this is the mode shape or a fault of the scan, not noise.',
  )
})
