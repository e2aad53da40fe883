import { expect, test } from 'vitest'
import { besselJ0, besselJ1 } from '../../src/numerics/bessel'
import { quickJ0, quickJ1 } from '../../src/numerics/quickBessel'

test('J0 and J1 agree with the exact ones to 1e-7, on either side of the seam at 3 and far out', () => {
  for (let x = 0; x < 200; x += 0.0137) {
    expect(Math.abs(quickJ0(x) - besselJ0(x)), `J0 of ${x}`).toBeLessThan(1e-7)
    expect(Math.abs(quickJ1(x) - besselJ1(x)), `J1 of ${x}`).toBeLessThan(1e-7)
  }
})
