// What an aperture lets through of a beam off its axis, against a sum over the aperture.

import { expect, test } from 'vitest'
import { throughAperture } from '../../../src/analysis/path/relay/clipping'

/** Power within the aperture by rings of 1440 points: the integral of 2 / (π wx wy) exp(-2 x² / wx² - 2 y² / wy²). */
function summed(radius: number, wx: number, wy: number, offX: number, offY: number): number {
  const [rings, around] = [1000, 1440]
  const [dr, da] = [radius / rings, (2 * Math.PI) / around]
  let sum = 0
  for (let i = 0; i < rings; i++) {
    const r = (i + 0.5) * dr
    for (let k = 0; k < around; k++) {
      const [x, y] = [r * Math.cos(k * da) - offX, r * Math.sin(k * da) - offY]
      sum += Math.exp(-2 * (x / wx) ** 2 - 2 * (y / wy) ** 2) * r
    }
  }
  return (sum * dr * da * 2) / (Math.PI * wx * wy)
}

test.each([
  { wx: 10, wy: 10, offX: 0, offY: 40 },
  { wx: 10, wy: 10, offX: -40, offY: 0 },
  { wx: 8, wy: 14, offX: 20, offY: -30 },
  { wx: 30, wy: 20, offX: 0, offY: 0 },
])('a beam of $wx by $wy µm at ($offX, $offY) µm through a radius of 45 µm', ({ wx, wy, offX, offY }) => {
  const through = throughAperture(90, { radiusXUm: wx, radiusYUm: wy, offXUm: offX, offYUm: offY })
  expect(through).toBeLessThan(1)
  expect(through).toBeCloseTo(summed(45, wx, wy, offX, offY), 5)
})

test('an aperture far wider than the beam takes nothing', () => {
  expect(throughAperture(90, { radiusXUm: 10, radiusYUm: 8, offXUm: 3, offYUm: -4 })).toBe(1)
})
