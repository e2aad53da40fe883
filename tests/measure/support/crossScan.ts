// A file of x, y and power that holds two line scans through a Gaussian mode, and what they must give.

import { randomSource } from './synthetic'

export const CROSS = { probeMfdUm: 5, mfdXUm: 4.2, mfdYUm: 3.1, centreXUm: 0.3, centreYUm: -0.2 } as const

const power = (x: number, y: number) => {
  const squared = (mfdUm: number) => (CROSS.probeMfdUm ** 2 + mfdUm ** 2) / 4
  return Math.exp(
    (-2 * (x - CROSS.centreXUm) ** 2) / squared(CROSS.mfdXUm) -
      (2 * (y - CROSS.centreYUm) ** 2) / squared(CROSS.mfdYUm),
  )
}

/** Steps of 0.25 um from -8 to 8 um, first along x at y = 0, then along y at x = 0; 0.1 % of noise. */
export function crossScanText(): string {
  const { normal } = randomSource(77)
  const steps = Array.from({ length: 65 }, (_, i) => i / 4 - 8)
  const rows = [...steps.map((x) => [x, 0] as const), ...steps.map((y) => [0, y] as const)]
  const lines = rows.map(([x, y]) => `${x},${y},${(100 * (power(x, y) + 0.001 * normal())).toFixed(4)}`)
  return ['x (um),y (um),P (uW)', ...lines, ''].join('\n')
}

/**
 * 1/e² radius of one line by weighted moments of ln P against a parabola, the textbook linearisation of a Gaussian
 * (H. Guo, IEEE Signal Process. Mag. 28 (2011) 134), over points above a tenth of the peak: nothing of the app's fit.
 */
export function radiusByParabola(position: readonly number[], reading: readonly number[]): number {
  const top = Math.max(...reading)
  const sums = [0, 0, 0, 0, 0]
  const moments = [0, 0, 0]
  position.forEach((x, i) => {
    const p = reading[i] ?? 0
    if (p < 0.1 * top) return
    for (let k = 0; k < 5; k++) sums[k] = (sums[k] ?? 0) + p * p * x ** k
    for (let k = 0; k < 3; k++) moments[k] = (moments[k] ?? 0) + p * p * x ** k * Math.log(p)
  })
  const [s0 = 0, s1 = 0, s2 = 0, s3 = 0, s4 = 0] = sums
  const [m0 = 0, m1 = 0, m2 = 0] = moments
  const determinant = (a: number[]) =>
    (a[0] ?? 0) * ((a[4] ?? 0) * (a[8] ?? 0) - (a[5] ?? 0) * (a[7] ?? 0)) -
    (a[1] ?? 0) * ((a[3] ?? 0) * (a[8] ?? 0) - (a[5] ?? 0) * (a[6] ?? 0)) +
    (a[2] ?? 0) * ((a[3] ?? 0) * (a[7] ?? 0) - (a[4] ?? 0) * (a[6] ?? 0))
  const curvature =
    determinant([s0, s1, m0, s1, s2, m1, s2, s3, m2]) / determinant([s0, s1, s2, s1, s2, s3, s2, s3, s4])
  return Math.sqrt(-2 / curvature)
}
