import { expect, test } from 'vitest'
import { besselJ0, besselJ1 } from '../../src/numerics/bessel'
import { quickJ0, quickJ1 } from '../../src/numerics/quickBessel'

test('J0 and J1 agree with the exact ones to 1e-7, on either side of the seam at 3 and far out', () => {
  const off: number[] = []
  for (let x = 0; x < 200; x += 0.0137) {
    const agree = Math.abs(quickJ0(x) - besselJ0(x)) < 1e-7 && Math.abs(quickJ1(x) - besselJ1(x)) < 1e-7
    if (!agree) off.push(x)
  }
  expect(off).toEqual([])
})
