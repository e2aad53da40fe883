// By how much a tilt moves the waves of a mode, against an integral over the waves of two Gaussians.

import { expect, test } from 'vitest'
import { integrate, panelRule } from '../../../src/numerics/quadrature'
import { fieldJointOn } from '../../../src/optics/field/fieldJoint'
import { ALIGNED_POSE, type Propagation } from '../../../src/optics/field/fieldPose'
import { firstGrid } from '../../../src/optics/field/jointGrid'
import { fieldPairOf } from '../../../src/optics/index'

const WAVELENGTH_UM = 1.55
const TILT_RAD = 0.02
const sine = TILT_RAD / Math.hypot(1, TILT_RAD)

function slopeOf(mfd1Um: number, mfd2Um: number, index: number, propagation: Propagation): number {
  const face = (mfdUm: number) => ({
    mode: { kind: 'gaussian', mfdXUm: mfdUm, mfdYUm: mfdUm, waistXUm: 0, waistYUm: 0 } as const,
    tip: null,
    stretchX: 1,
    stretchY: 1,
  })
  const pair = fieldPairOf({
    emitter: face(mfd1Um),
    receiver: face(mfd2Um),
    wavelengthUm: WAVELENGTH_UM,
    index,
    propagation,
  })
  return fieldJointOn(pair, firstGrid(pair, [ALIGNED_POSE])).slopePerUm(TILT_RAD)
}

test.each([
  [2.5, 3.4, 1],
  [3.4, 2.5, 1.45],
  [10.4, 2.5, 1],
])(
  'the mean axial wave number of the waves that modes of %s and %s µm share, in index %s',
  (mfd1, mfd2, index) => {
    const k = (2 * Math.PI * index) / WAVELENGTH_UM
    const square = (mfd1 ** 2 + mfd2 ** 2) / 16
    const rule = panelRule([0, k / 3, (2 * k) / 3, k], 32)
    const weight = (q: number) => q * Math.exp(-q * q * square)
    const share = integrate((q) => weight(q) * Math.sqrt(1 - (q / k) ** 2), rule) / integrate(weight, rule)
    expect(share).toBeLessThan(0.998)
    expect(slopeOf(mfd1, mfd2, index, 'exact') / (k * sine)).toBeCloseTo(share, 4)
  },
)

test('paraxial waves move by the wave number itself, and no tilt by nothing', () => {
  expect(slopeOf(2.5, 3.4, 1, 'paraxial')).toBeCloseTo((2 * Math.PI * TILT_RAD) / WAVELENGTH_UM, 12)
})
