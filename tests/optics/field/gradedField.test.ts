// The plane waves of a graded field against their definition, summed wave by wave, with odd and even numbers of cells and waves.

import { expect, test } from 'vitest'
import { gradedProfile } from '../../../src/optics/field/gradedField'

const xUm = Float64Array.of(-1.1, -0.3, 0.2, 0.6, 1.4)
const yUm = Float64Array.of(-0.7, 0.1, 0.9)
const weighted = Float64Array.from({ length: xUm.length * yUm.length }, (_, i) => Math.sin(2 * i + 1))
const [nx, ny, step] = [5, 4, 0.5]
const field = {
  ...{ nx, ny, dxUm: step, dyUm: step, x0Um: -1, y0Um: -0.5, wavelengthUm: 1.55, index: 1 },
  ...{ re: new Float64Array(nx * ny).fill(1), im: new Float64Array(nx * ny) },
}

test('are the sums over its cells of amplitude times area times exp(-i k r), at every pair of wavenumbers', () => {
  const { plane } = gradedProfile(field, { xUm, yUm, weighted, powerUm2: 1 })
  const grids = [
    [Float64Array.of(-2.5, -0.4, 0, 1.3, 3.1, 4), Float64Array.of(-1.9, 0.2, 2.2)],
    [Float64Array.of(-2.5, -0.4, 0, 1.3, 3.1, 4), Float64Array.of(-1.9, 0.2, 2.3)],
    [Float64Array.of(-2.5, -0.4, 0, 1.3, 3.1, 4.1), Float64Array.of(-1.9, 0.2, 2.2)],
  ] as const
  // The first grid again, whose waves are known then, also after they were changed where they had been written.
  for (const [kx, ky] of [...grids, grids[0]]) {
    const re = new Float64Array(kx.length * ky.length).fill(Number.NaN)
    const im = re.slice()
    plane?.waves(kx, ky, re, im)
    expectSums(kx, ky, re, im)
    re.fill(7)
  }
})

function expectSums(kx: Float64Array, ky: Float64Array, re: Float64Array, im: Float64Array): void {
  for (const [iy, up] of ky.entries()) {
    for (const [ix, across] of kx.entries()) {
      let [sumRe, sumIm] = [0, 0]
      for (const [i, value] of weighted.entries()) {
        const phase = across * (xUm[i % 5] ?? 0) + up * (yUm[Math.floor(i / 5)] ?? 0)
        sumRe += value * Math.cos(phase)
        sumIm -= value * Math.sin(phase)
      }
      expect(re[iy * kx.length + ix]).toBeCloseTo(sumRe, 12)
      expect(im[iy * kx.length + ix]).toBeCloseTo(sumIm, 12)
    }
  }
}
