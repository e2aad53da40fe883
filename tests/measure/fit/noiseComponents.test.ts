// The sizes of noise that was put into a series of readings, one cause at a time.

import { describe, expect, test } from 'vitest'
import { findNoise } from '../../../src/measure/fit/noiseComponents'
import type { LinearModel, NoiseComponents } from '../../../src/measure/fit/restrictedLikelihood'
import { randomSource } from '../support/synthetic'

const PLACES = Array.from({ length: 400 }, (_, i) => (i - 199.5) / 20)
const SIGNAL = PLACES.map((x) => Math.exp(-2 * (x / 4) ** 2))
const SLOPE = PLACES.map((x, i) => -(x / 4) * (SIGNAL[i] ?? 0))

function readings(c: NoiseComponents): LinearModel {
  const { normal } = randomSource(1)
  let [gain, base] = [0, 0]
  const residuals = SIGNAL.map((signal, i) => {
    gain += c.gainStep * normal()
    base += c.baseStep * normal()
    const own = c.absolute * normal() + c.relative * signal * normal() + c.jitter * (SLOPE[i] ?? 0) * normal()
    return own + gain * signal + base
  })
  const columns = [PLACES.map(() => 1), SIGNAL, SLOPE]
  return {
    residuals: Float64Array.from(residuals),
    columns: columns.map((each) => Float64Array.from(each)),
    signal: Float64Array.from(SIGNAL),
    slope: Float64Array.from(SLOPE),
  }
}

const NONE: NoiseComponents = { absolute: 0.001, relative: 0, jitter: 0, gainStep: 0, baseStep: 0 }
const found = (c: NoiseComponents) => findNoise(readings(c), { absolute: 0.001, relative: 0.001 })

describe('noise found by restricted likelihood', () => {
  // The standard deviation of n normal numbers is known to 1 / sqrt(2 n): 4 % of 400, of which two thirds carry signal.
  test.each([
    ['relative', 0.02],
    ['jitter', 0.05],
  ] as const)('%s noise is found with its size, as independent from reading to reading', (name, size) => {
    const noise = found({ ...NONE, [name]: size })
    expect((noise?.components[name] ?? 0) / size).toBeGreaterThan(0.85)
    expect((noise?.components[name] ?? 0) / size).toBeLessThan(1.15)
    expect((noise?.components.absolute ?? 0) / NONE.absolute).toBeGreaterThan(0.8)
    expect((noise?.components.absolute ?? 0) / NONE.absolute).toBeLessThan(1.2)
    expect(noise?.correlation).toBeLessThan(2.5)
  })

  test.each([
    ['gainStep', 0.01],
    ['baseStep', 0.002],
  ] as const)(
    'a random walk, %s, is found within a quarter, and the residuals are correlated',
    (name, size) => {
      const noise = found({ ...NONE, [name]: size })
      expect((noise?.components[name] ?? 0) / size).toBeGreaterThan(0.75)
      expect((noise?.components[name] ?? 0) / size).toBeLessThan(1.25)
      expect(noise?.correlation).toBeGreaterThan(50)
    },
  )

  test('where nothing moves with position there is no jitter', () => {
    const still = { ...readings(NONE), slope: new Float64Array(PLACES.length) }
    expect(findNoise(still, { absolute: 0.001, relative: 0.001 })?.components.jitter).toBe(0)
  })
})
