import { expect, test } from 'vitest'
import { oneSided } from '../../../src/measure/fit/oneSided'

// Reference: the joint normal density summed over a grid of the positive half plane.

/** Mean, variance and share of the positive half of a normal in two dimensions, the second of which is cut at zero. */
function summed(mean: readonly [number, number], cov: readonly [number, number, number]) {
  const [xx, xy, yy] = cov
  const determinant = xx * yy - xy * xy
  const sums = { one: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0 }
  const step = 0.05
  for (let y = step / 2; y < 14; y += step) {
    for (let x = -14; x < 14; x += step) {
      const [u, v] = [x - mean[0], y - mean[1]]
      const density = Math.exp(-(yy * u * u - 2 * xy * u * v + xx * v * v) / (2 * determinant))
      sums.one += density
      sums.x += density * x
      sums.y += density * y
      sums.xx += density * x * x
      sums.xy += density * x * y
      sums.yy += density * y * y
    }
  }
  const [x, y] = [sums.x / sums.one, sums.y / sums.one]
  return {
    shift: [x, y],
    covariance: [sums.xx / sums.one - x * x, sums.xy / sums.one - x * y, sums.yy / sums.one - y * y],
    share: (sums.one * step * step) / (2 * Math.PI * Math.sqrt(determinant)),
  }
}

test.each([2, 0.3, -1.5])('the posterior of a size of %s standard deviations is cut at zero', (t) => {
  const cov = [1.7, -0.9, 1.21] as const
  const mean = [0.4, 1.1 * t] as const
  const cut = oneSided({
    deviance: 0,
    scale: 1,
    shift: Float64Array.from(mean),
    covariance: Float64Array.of(cov[0], cov[1], cov[1], cov[2]),
  })
  const { shift, covariance, share } = summed(mean, cov)
  expect(cut?.evidence).toBeCloseTo(2 * share, 3)
  expect(cut?.fit.shift[0]).toBeCloseTo(shift[0]!, 3)
  expect(cut?.fit.shift[1]).toBeCloseTo(shift[1]!, 3)
  expect(cut?.fit.covariance[0]).toBeCloseTo(covariance[0]!, 3)
  expect(cut?.fit.covariance[1]).toBeCloseTo(covariance[1]!, 3)
  expect(cut?.fit.covariance[2]).toBeCloseTo(covariance[1]!, 3)
  expect(cut?.fit.covariance[3]).toBeCloseTo(covariance[2]!, 3)
})

test('a size that the data make impossible is no explanation', () => {
  const fit = { deviance: 0, scale: 1, shift: Float64Array.of(-6), covariance: Float64Array.of(1) }
  expect(oneSided(fit)).toBeNull()
})
