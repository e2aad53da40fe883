import { describe, expect, test } from 'vitest'
import { orderScan } from '../../../src/measure/fit/orderedScan'
import { fitOffsetScan, OFFSET_PARAMETER } from '../../../src/measure/offset/offsetScanFit'
import { randomSource } from '../support/synthetic'

const UP = Array.from({ length: 41 }, (_, i) => -10 + 0.5 * i)
const TRUE = { peak: 2, centre: 0.3, radius: 5.2, background: 0.05 }
const START = [1.8, 0, 4.8, 0.02]

/** A Gaussian on a background, found later by half the backlash upwards and earlier by as much downwards. */
function fitOf(at: readonly number[], backlashUm: number, noise: number, seed: number) {
  const { normal } = randomSource(seed)
  const power = at.map((x, i) => {
    const side = Math.sign(x - (at[i - 1] ?? 2 * x - (at[1] ?? x))) / 2
    const u = (x - TRUE.centre - side * backlashUm) / TRUE.radius
    return TRUE.peak * Math.exp(-2 * u * u) + TRUE.background + noise * normal()
  })
  return fitOffsetScan(orderScan('positionUm', at, power), START)
}

describe('the fit of an offset scan in the order of its readings', () => {
  test('finds what was put in, within what it states', () => {
    const fit = fitOf(UP, 0, 0.01, 5)
    expect(fit?.parameters).toHaveLength(4)
    for (const key of ['peak', 'centre', 'radius', 'background'] as const) {
      const [value = 0, standard = 0] = [
        fit?.parameters[OFFSET_PARAMETER[key]],
        fit?.standards[OFFSET_PARAMETER[key]],
      ]
      expect(standard, key).toBeGreaterThan(0)
      expect(standard, key).toBeLessThan(0.05 * TRUE.radius)
      expect(Math.abs(value - TRUE[key]), key).toBeLessThan(4 * standard)
    }
  })

  test('finds the backlash of a scan in both directions', () => {
    const fit = fitOf([...UP, ...UP.toReversed()], 0.8, 0.005, 6)
    expect(fit?.parameters).toHaveLength(5)
    expect(fit?.parameters[OFFSET_PARAMETER.backlash]).toBeCloseTo(0.8, 1)
    expect(fit?.parameters[OFFSET_PARAMETER.centre]).toBeCloseTo(TRUE.centre, 1)
    expect(fit?.parameters[OFFSET_PARAMETER.radius]).toBeCloseTo(TRUE.radius, 1)
  })
})
