// The end of a scan and what of it is put right. Near-field Petermann II by scipy (step-index-lp01.json) is the truth.

import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { farFieldMfd } from '../../../src/measure'
import { lp01Intensity } from '../../../src/measure/farField/farFieldShape'
import { LARGEST_CORRECTION } from '../../../src/measure/farField/farFieldTruncation'
import { farFieldWarnings } from '../../../src/measure/farField/farFieldWarnings'
import { solveLp01 } from '../../../src/optics/fibre/stepIndexMode'
import { gaussianFarField } from '../support/synthetic'

const DEGREE = Math.PI / 180
const {
  modes,
}: {
  modes: { coreRadiusUm: number; na: number; wavelengthUm: number; petermann2MfdUm: number }[]
} = JSON.parse(readFileSync(new URL('../../reference/data/step-index-lp01.json', import.meta.url), 'utf8'))

/** A scan without noise, to six digits as files have them. */
function scanOf(
  { coreRadiusUm, na, wavelengthUm }: (typeof modes)[number],
  spanDeg: number,
  stepDeg: number,
) {
  const ka = (2 * Math.PI * coreRadiusUm) / wavelengthUm
  const roots = solveLp01(ka * na)
  const count = Math.round((2 * spanDeg) / stepDeg) + 1
  const angleRad = Array.from({ length: count }, (_, i) => (i * stepDeg - spanDeg) * DEGREE)
  const power = angleRad.map((angle) =>
    Number((37 * lp01Intensity(roots, ka * Math.abs(Math.sin(angle - 0.7 * DEGREE)))).toPrecision(6)),
  )
  return { angleRad, power, wavelengthUm }
}

describe('sixteen step-index fibres scanned to the angle that their size asks for', () => {
  test.each(modes.map((mode) => [mode.coreRadiusUm, mode.na, mode] as const))(
    'core radius %s um, NA %s: the result is the near field, where the integral alone reads too large',
    (_, __, mode) => {
      const wide = mode.coreRadiusUm > 3
      const result = farFieldMfd(scanOf(mode, wide ? 28 : 62, wide ? 0.5 : 1))
      const error = result.petermann2MfdUm / mode.petermann2MfdUm - 1
      // A tenth of a per cent is what a spline through points 1° apart does to the narrowest of these lobes.
      expect(Math.abs(error)).toBeLessThan(1e-3)
      expect(Math.abs(error) * mode.petermann2MfdUm).toBeLessThan(result.uncertaintyUm)
      expect(result.uncertaintyUm / mode.petermann2MfdUm).toBeLessThan(2e-3)
      expect(result.fittedShape).toBe('step-index')
      if (!result.truncationIsCorrected) return
      expect(result.integralMfdUm).toBeGreaterThan(result.petermann2MfdUm)
      expect(result.petermann2MfdUm * (1 + result.truncationBias)).toBeCloseTo(result.integralMfdUm, 9)
      expect(result.budget.biasUm).toBe(0)
    },
  )
})

describe('a bias of up to 1 % is corrected, a larger one is not', () => {
  test('a 3.2 um Gaussian cut at 35° is corrected for 0.6 %; at 30° it reads 1.4 % too large and says so', () => {
    const corrected = farFieldMfd(gaussianFarField(3.2, 1.55, 35, 0.5))
    expect(corrected.truncationIsCorrected).toBe(true)
    expect(Math.abs(corrected.petermann2MfdUm / 3.2 - 1)).toBeLessThan(2e-4)
    // 3.244942: direct integration with scipy.
    const standing = farFieldMfd(gaussianFarField(3.2, 1.55, 30, 0.5))
    expect(standing.truncationIsCorrected).toBe(false)
    expect(Math.abs(standing.petermann2MfdUm / 3.244942 - 1)).toBeLessThan(1e-3)
    expect(standing.petermann2MfdUm).toBe(standing.integralMfdUm)
    expect(standing.extrapolatedMfdUm).toBeCloseTo(3.2, 2)
    expect(standing.budget.biasUm).toBeCloseTo(standing.truncationBias * standing.petermann2MfdUm, 12)
    expect(standing.warnings.join()).toMatch(/1\.4 %, which is too large to correct/)
    expect(standing.truncationBias).toBeGreaterThan(LARGEST_CORRECTION)
  })

  test('a correction above 0.3 % is said, a smaller one is not worth a warning', () => {
    const result = farFieldMfd(gaussianFarField(3.2, 1.55, 35, 0.5))
    const told = (truncationBias: number) =>
      farFieldWarnings({ ...result, truncationBias, truncationIsCorrected: true }, 1.55, 0).join()
    expect(told(0.006)).toMatch(/0\.60 %\. The result is corrected for this/)
    expect(told(0.002)).not.toMatch(/overestimates/)
  })

  test('what the correction rests on is a contribution of its own, larger where the shape fits less', () => {
    const scan = gaussianFarField(3.2, 1.55, 35, 0.5)
    const part = (power: readonly number[]) =>
      farFieldMfd({ ...scan, power }).budget.contributions.find((each) =>
        /beyond the scan/.test(each.source),
      )!
    const lumpy = scan.power.map((p, i) => p * (1 + 0.03 * Math.sin(i / 3)))
    expect(part(lumpy).standardUm).toBeGreaterThan(10 * part(scan.power).standardUm)
  })
})

test('few points a lobe are no noise: a 1° scan without noise states less than 0.01 %', () => {
  const result = farFieldMfd(
    scanOf({ coreRadiusUm: 2.9, na: 0.16, wavelengthUm: 1.31, petermann2MfdUm: 0 }, 62, 1),
  )
  expect(result.uncertaintyUm / result.petermann2MfdUm).toBeLessThan(1e-4)
})
