import { describe, expect, test } from 'vitest'
import { normalProbability } from '../../../src/numerics/normal'
import {
  acceptanceLimits,
  guardFactor,
  usefulUncertainty,
} from '../../../src/report/characteristics/guardBand'
import { METHODS, standardUncertainty } from '../../../src/report/characteristics/methods'

describe('guard bands', () => {
  test('take the tabulated normal quantiles', () => {
    // JCGM 106:2012 with a normal uncertainty: k = 1.6449 accepts a part at its limit with 5 %.
    expect(guardFactor(0.05)).toBeCloseTo(1.6449, 4)
    expect(guardFactor(0.025)).toBeCloseTo(1.96, 3)
    expect(guardFactor(0.01)).toBeCloseTo(2.3263, 4)
  })

  test('accept a part exactly at its limit with no more than the risk', () => {
    const standard = 0.05
    const limits = { lower: 8, upper: 8.4 }
    const accept = acceptanceLimits(limits, standard, guardFactor(0.05))
    // 8 + 1.6449 * 0.05 = 8.0822, rounded inwards to two digits of the guard band.
    expect(accept).toEqual({ lower: 8.083, upper: 8.317 })
    const passes = (value: number) =>
      normalProbability(((accept?.upper ?? 0) - value) / standard) -
      normalProbability(((accept?.lower ?? 0) - value) / standard)
    expect(passes(8.4)).toBeLessThan(0.05)
    expect(passes(8.4)).toBeGreaterThan(0.045)
    expect(passes(8)).toBeLessThan(0.05)
  })

  test('keep to the one side that has a limit, and leave nothing where the method is too uncertain', () => {
    expect(acceptanceLimits({ lower: null, upper: 0.45 }, 0.025, 2)).toEqual({ lower: null, upper: 0.4 })
    expect(acceptanceLimits({ lower: 30, upper: null }, 0.5, 2)).toEqual({ lower: 31, upper: null })
    expect(acceptanceLimits({ lower: 1, upper: 2 }, 0.3, 2)).toBeNull()
    expect(acceptanceLimits({ lower: 1, upper: 2 }, 0, 2)).toEqual({ lower: 1, upper: 2 })
  })

  test('name the uncertainty that leaves half of the tolerance', () => {
    const [limits, factor] = [{ lower: 126.98, upper: 127.02 }, guardFactor(0.05)]
    const needed = usefulUncertainty(limits, factor) ?? 0
    const guard = factor * (needed / 2)
    expect(0.04 - 2 * guard).toBeCloseTo(0.02, 12)
    expect(usefulUncertainty({ lower: null, upper: 1 }, factor)).toBeNull()
  })
})

describe('uncertainties of methods', () => {
  test('come in the unit of the quantity, halved from k = 2', () => {
    expect(standardUncertainty('pitch', 0.01, { value: 0.127, unit: 'mm' })).toBeCloseTo(0.000005, 15)
    expect(standardUncertainty('farField', 1, { value: 10.4, unit: 'um' })).toBeCloseTo(0.052, 12)
    expect(standardUncertainty('reflectance', 0.05, { value: 0.0025, unit: '1' })).toBeCloseTo(0.00025, 12)
  })

  test('cannot be asked of a quantity of another kind', () => {
    expect(() => standardUncertainty('faceAngle', 0.1, { value: 1, unit: 'um' })).toThrow(
      'does not measure in',
    )
  })

  test('are positive, each method with a name of its own', () => {
    const all = Object.values(METHODS)
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length)
    for (const { expanded } of all) expect(expanded).toBeGreaterThan(0)
  })
})
