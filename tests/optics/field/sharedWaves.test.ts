import { expect, test } from 'vitest'
import { fftPlan } from '../../../src/numerics/fft/fft2'
import { ALIGNED_POSE, type FieldPose } from '../../../src/optics/field/fieldPose'
import { sharedWaves } from '../../../src/optics/field/sharedWaves'

const K = 5
const N = 32

/** Waves of the given frequencies and amplitudes on a grid whose wavenumbers are multiples of 1 and of `perY`, 1/um. */
function powerOf(
  waves: readonly { readonly x: number; readonly y: number; readonly re: number; readonly im: number }[],
  perY: number,
) {
  const plan = fftPlan(N, N)
  const shared = sharedWaves(plan, {
    nx: N,
    ny: N,
    dxUm: (2 * Math.PI) / N,
    dyUm: (2 * Math.PI) / (N * perY),
  })
  const spectrum = () => ({ re: new Float64Array(N * N), im: new Float64Array(N * N) })
  const [e, r] = [spectrum(), spectrum()]
  for (const { x, y, re, im } of waves) {
    const at = plan.orderY.indexOf(y) * N + plan.orderX.indexOf(x)
    e.re[at] = re
    e.im[at] = im
    r.re[at] = 1
  }
  shared.take(e, r, 1)
  return (pose: Partial<FieldPose>, propagation: 'exact' | 'paraxial' = 'exact') =>
    shared.power(K, { ...ALIGNED_POSE, ...pose }, propagation)
}

const one = (x: number, y: number, perY: number) => powerOf([{ x, y, re: 0.6, im: 0.8 }], perY)

// One wave of transverse wavenumber above k dies away as exp(-z sqrt(kx^2 + ky^2 - k^2)) (Goodman, sect. 3.10, from memory).
test('a wave too steep to travel dies away across the gap, a travelling one keeps its power', () => {
  expect(one(13, 0, 1)({ gapUm: 0.1 })).toBeCloseTo(Math.exp(-2 * 0.1 * 12), 12)
  expect(one(-13, 0, 1)({ gapUm: 0.1 })).toBeCloseTo(Math.exp(-2 * 0.1 * 12), 12)
  expect(one(3, 1, Math.sqrt(41))({ gapUm: 0.3 })).toBeCloseTo(Math.exp(-2 * 0.3 * 5), 12)
  expect(one(3, 4, 1)({ gapUm: 7 })).toBeCloseTo(1, 12)
  expect(one(13, 0, 1)({ gapUm: 0 })).toBeCloseTo(1, 12)
})

// The sum written out: each wave a exp(i (z (k - kz) - kx dx - ky dy)), with k - kz = (kx^2 + ky^2) / (2 k) where paraxial.
test('several waves interfere as the sum that is written out, one gap and offset after the other', () => {
  const waves = [
    { x: 2, y: 1, re: 0.3, im: -0.2 },
    { x: -3, y: 2, re: 0.5, im: 0.1 },
    { x: 1, y: -2, re: -0.2, im: 0.4 },
    { x: -1, y: -1, re: 0.1, im: 0.6 },
    { x: 0, y: 0, re: 1e-12, im: 0 },
  ]
  const perY = 0.7
  const power = powerOf(waves, perY)
  const poses = [
    { gapUm: 0, offsetXUm: 0.4, offsetYUm: -0.9 },
    { gapUm: 2.5, offsetXUm: 0.4, offsetYUm: -0.9 },
    { gapUm: 2.5, offsetXUm: -1.1, offsetYUm: 0.3 },
    { gapUm: 4, offsetXUm: -1.1, offsetYUm: 0.3 },
  ]
  for (const propagation of ['exact', 'paraxial', 'exact'] as const) {
    for (const pose of poses) {
      let [re, im] = [0, 0]
      for (const wave of waves) {
        const [x, y] = [wave.x, wave.y * perY]
        const squared = x * x + y * y
        const behind = propagation === 'exact' ? K - Math.sqrt(K * K - squared) : squared / (2 * K)
        const phase = pose.gapUm * behind - x * pose.offsetXUm - y * pose.offsetYUm
        re += wave.re * Math.cos(phase) - wave.im * Math.sin(phase)
        im += wave.re * Math.sin(phase) + wave.im * Math.cos(phase)
      }
      expect(power(pose, propagation)).toBeCloseTo(re * re + im * im, 12)
    }
  }
})
