import { expect, test } from 'vitest'
import { ALIGNED_POSE } from '../../../src/optics/field/fieldPose'
import { summedPower } from '../../../src/optics/field/sharedWaves'

const K = 5
const wave = (kx: number, ky: number) => ({
  count: 1,
  kx: Float64Array.of(kx),
  ky: Float64Array.of(ky),
  re: Float64Array.of(0.6),
  im: Float64Array.of(0.8),
})

// One wave of transverse wavenumber above k dies away as exp(-z sqrt(kx^2 + ky^2 - k^2)) (Goodman, sect. 3.10, from memory).
test('a wave too steep to travel dies away across the gap, a travelling one keeps its power', () => {
  const power = (kx: number, ky: number, gapUm: number) =>
    summedPower(wave(kx, ky), K, { ...ALIGNED_POSE, gapUm }, 'exact')
  expect(power(13, 0, 0.1)).toBeCloseTo(Math.exp(-2 * 0.1 * 12), 12)
  expect(power(3, Math.sqrt(41), 0.3)).toBeCloseTo(Math.exp(-2 * 0.3 * 5), 12)
  expect(power(3, 4, 7)).toBeCloseTo(1, 12)
  expect(power(13, 0, 0)).toBeCloseTo(1, 12)
})
