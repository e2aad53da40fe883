import { describe, expect, test } from 'vitest'
import { fftPlan, forward2, inverse2 } from '../../../src/numerics/fft/fft2'
import { uniformStream } from './stream'

/** The definition, spelled out: the source is the discrete Fourier transform itself. */
function slowTransform(nx: number, ny: number, re: Float64Array, im: Float64Array, p: number, q: number) {
  let sumRe = 0
  let sumIm = 0
  for (let iy = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++) {
      const angle = -2 * Math.PI * ((p * ix) / nx + (q * iy) / ny)
      const [r, i] = [re[iy * nx + ix] ?? 0, im[iy * nx + ix] ?? 0]
      sumRe += r * Math.cos(angle) - i * Math.sin(angle)
      sumIm += r * Math.sin(angle) + i * Math.cos(angle)
    }
  }
  return { re: sumRe, im: sumIm }
}

const SIZES = [
  [4, 4],
  [8, 4],
  [16, 32],
  [64, 8],
] as const

describe('the two-dimensional transform', () => {
  test.each(SIZES)('of %i by %i equals the sum that defines it', (nx, ny) => {
    const draw = uniformStream(7)
    const re = Float64Array.from({ length: nx * ny }, draw)
    const im = Float64Array.from({ length: nx * ny }, draw)
    const plan = fftPlan(nx, ny)
    const [a, b] = [re.slice(), im.slice()]
    forward2(plan, a, b)
    for (let iy = 0; iy < ny; iy++) {
      for (let ix = 0; ix < nx; ix++) {
        const slow = slowTransform(nx, ny, re, im, plan.orderX[ix] ?? 0, plan.orderY[iy] ?? 0)
        expect(Math.abs((a[iy * nx + ix] ?? 0) - slow.re)).toBeLessThan(1e-11)
        expect(Math.abs((b[iy * nx + ix] ?? 0) - slow.im)).toBeLessThan(1e-11)
      }
    }
  })

  test.each([...SIZES, [512, 256] as const])('of %i by %i is undone by the inverse', (nx, ny) => {
    const draw = uniformStream(3)
    const re = Float64Array.from({ length: nx * ny }, draw)
    const im = Float64Array.from({ length: nx * ny }, draw)
    const plan = fftPlan(nx, ny)
    const [a, b] = [re.slice(), im.slice()]
    forward2(plan, a, b)
    inverse2(plan, a, b)
    const worst = re.reduce(
      (most, value, i) => Math.max(most, Math.abs(value - (a[i] ?? 0)), Math.abs((im[i] ?? 0) - (b[i] ?? 0))),
      0,
    )
    expect(worst).toBeLessThan(1e-13)
  })

  test('keeps the power, as Parseval says', () => {
    const draw = uniformStream(5)
    const [nx, ny] = [128, 64]
    const re = Float64Array.from({ length: nx * ny }, draw)
    const im = Float64Array.from({ length: nx * ny }, draw)
    const power = (a: Float64Array, b: Float64Array) =>
      a.reduce((sum, value, i) => sum + value * value + (b[i] ?? 0) ** 2, 0)
    const before = power(re, im)
    forward2(fftPlan(nx, ny), re, im)
    expect(Math.abs(power(re, im) / (nx * ny) / before - 1)).toBeLessThan(1e-13)
  })

  test('skips empty rows on request', () => {
    const draw = uniformStream(9)
    const [nx, ny] = [32, 32]
    const re = Float64Array.from({ length: nx * ny }, (_, i) => (i < nx * 16 ? draw() : 0))
    const im = new Float64Array(nx * ny)
    const [a, b] = [re.slice(), im.slice()]
    const plan = fftPlan(nx, ny)
    forward2(plan, re, im)
    forward2(plan, a, b, 16)
    expect(a).toEqual(re)
    expect(b).toEqual(im)
  })

  test('refuses sizes that are no powers of two, by name', () => {
    expect(() => fftPlan(100, 64)).toThrow('nx is 100; must be a power of two, 4 to 4096')
    expect(() => fftPlan(64, 2)).toThrow('ny is 2; must be a power of two, 4 to 4096')
  })
})
