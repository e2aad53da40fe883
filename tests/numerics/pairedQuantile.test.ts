import { expect, test } from 'vitest'
import { pairedQuantile } from '../../src/numerics/pairedQuantile'
import { unitPoints } from '../../src/numerics/random/unitPoints'

const ramp = (count: number) => Float64Array.from({ length: count }, (_, i) => (i * 37) % count)

test('values that all fall by the same let every quantile fall by it, without error', () => {
  for (const count of [2, 37, 64, 512]) {
    const before = ramp(count)
    for (const share of [0.5, 0.95, 0.9999]) {
      const { fall, standardError } = pairedQuantile(before, share)(before.map((each) => each - 0.25))
      expect(fall, `${count}, ${share}`).toBeCloseTo(0.25, 9)
      expect(standardError).toBeLessThan(1e-9)
    }
  }
})

test('the quantile of uniform values that shrink to half falls by half of it', () => {
  // The quantile of values uniform in 0 to 1 is the share itself.
  const before = new Float64Array(1024)
  unitPoints('sobol', 1, 3).fill(0, 1024, before)
  const { fall, standardError } = pairedQuantile(before, 0.9)(before.map((each) => each / 2))
  expect(fall).toBeCloseTo(0.45, 3)
  expect(standardError).toBeLessThan(0.005)
})

test('its error is the spread of the falls of independent samples', () => {
  const falls: number[] = []
  const errors: number[] = []
  for (let seed = 1; seed <= 200; seed++) {
    const points = new Float64Array(2 * 256)
    unitPoints('random', 2, seed).fill(0, 256, points)
    const before = Float64Array.from(
      { length: 256 },
      (_, i) => (points[2 * i] ?? 0) + (points[2 * i + 1] ?? 0),
    )
    const after = Float64Array.from(
      { length: 256 },
      (_, i) => (points[2 * i] ?? 0) + (points[2 * i + 1] ?? 0) / 2,
    )
    const { fall, standardError } = pairedQuantile(before, 0.9)(after)
    falls.push(fall)
    errors.push(standardError)
  }
  const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length
  const spread = Math.sqrt(mean(falls.map((each) => (each - mean(falls)) ** 2)))
  // Sum of two uniforms: 1 - P = (2 - q)^2 / 2. Of u + v / 2 above 1: 1 - P = (1.5 - q)^2.
  const exact = 2 - Math.sqrt(0.2) - (1.5 - Math.sqrt(0.1))
  expect(Math.abs(mean(falls) - exact)).toBeLessThan(3 * (spread / Math.sqrt(200)) + 0.003)
  expect(mean(errors) / spread).toBeGreaterThan(0.85)
  expect(mean(errors) / spread).toBeLessThan(1.25)
})

test('a single value states no error, none or another number of values is refused', () => {
  expect(pairedQuantile(Float64Array.of(2), 0.5)(Float64Array.of(1))).toEqual({
    fall: 1,
    standardError: Number.POSITIVE_INFINITY,
  })
  expect(() => pairedQuantile(new Float64Array(0), 0.5)).toThrow('values is 0')
  expect(() => pairedQuantile(ramp(64), 0.5)(ramp(32))).toThrow('values is 32')
})
