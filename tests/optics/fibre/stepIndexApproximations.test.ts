import { expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import {
  approximateStepIndex,
  STEP_INDEX_APPROXIMATIONS,
} from '../../../src/optics/fibre/stepIndexApproximations'
import { solveLp01, stepIndexMode } from '../../../src/optics/fibre/stepIndexMode'

const exact = {
  marcuse: (V: number) => unitFibre(V).bestGaussianMfdUm / 2,
  husseyMartinez: (V: number) => unitFibre(V).petermann2MfdUm / 2,
  rudolphNeumann: (V: number) => solveLp01(V).W,
}
const names = ['marcuse', 'husseyMartinez', 'rudolphNeumann'] as const

function unitFibre(V: number) {
  return stepIndexMode({ coreRadiusUm: 1, na: V / (2 * Math.PI), wavelengthUm: 1 })
}

test.each(names)(
  '%s stays within its stated error of the exact mode over its range, and comes near that error',
  (name) => {
    const { rangeV, worstError } = STEP_INDEX_APPROXIMATIONS[name]
    let worst = 0
    for (let i = 0; i <= 60; i++) {
      const V = rangeV[0] + ((rangeV[1] - rangeV[0]) * i) / 60
      worst = Math.max(worst, Math.abs(approximateStepIndex(name, V) / exact[name](V) - 1))
    }
    expect(worst).toBeLessThanOrEqual(worstError)
    expect(worst).toBeGreaterThan(worstError / 2)
  },
)

test.each(names)('%s is refused outside its range', (name) => {
  const { rangeV } = STEP_INDEX_APPROXIMATIONS[name]
  expect(() => approximateStepIndex(name, rangeV[0] - 0.01)).toThrow(InputError)
  expect(() => approximateStepIndex(name, rangeV[1] + 0.01)).toThrow(/must be .* to 2.5$/)
})
