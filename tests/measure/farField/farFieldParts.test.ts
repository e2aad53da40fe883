// Parts of the evaluation of a far field against closed forms of a Gaussian one, and against a sum of its points.

import { describe, expect, test } from 'vitest'
import type { FarFieldFit } from '../../../src/measure/farField/farFieldFit'
import { bestGaussianS0 } from '../../../src/measure/farField/farFieldGaussian'
import { meanHalfAngle } from '../../../src/measure/farField/farFieldHalfAngle'
import { type FarFieldResult, farFieldMfd } from '../../../src/measure/farField/farFieldMfd'
import {
  fittedResiduals,
  integralSlopes,
  noiseThrough,
  withFloorLowered,
} from '../../../src/measure/farField/farFieldNoise'
import {
  LARGEST_CORRECTION,
  truncationBias,
  truncationOf,
} from '../../../src/measure/farField/farFieldTruncation'
import { farFieldWarnings } from '../../../src/measure/farField/farFieldWarnings'
import { petermann2MfdUm, petermannIntegrals } from '../../../src/measure/farField/petermannIntegral'
import type { OrderedScan } from '../../../src/measure/fit/orderedScan'

/** exp(−2 s²/s0²) on a floor, its axis at an angle; the diameter of its near field is 2 λ / (π s0). */
const gaussian = (s0: number, more: object = {}) =>
  ({
    ...{ axisRad: 0.013, peakPower: 5, floorPower: 0.2, misfit: 1, mfdInWavelengths: 2 / (Math.PI * s0) },
    intensity: (s: number) => Math.exp(-2 * (s / s0) ** 2),
    ...more,
  }) as unknown as FarFieldFit

describe('the best Gaussian', () => {
  test.each([0.05, 0.12, 0.25])('of a Gaussian far field is itself, s0 = %s', (s0) => {
    for (const guess of [0.4, 1, 2.5])
      expect(
        bestGaussianS0((a) => 7 * Math.exp(-2 * (Math.sin(a) / s0) ** 2), 7, 1, guess * s0) / s0,
      ).toBeCloseTo(1, 4)
  })

  test('of another shape is where the overlap by a fine sum is greatest', () => {
    // A flatter top; down to a thousandth of the peak, where the field is left out.
    const intensity = (a: number) => Math.exp(-2 * (Math.sin(a) / 0.2) ** 4)
    const reach = Math.asin(0.2 * (Math.log(1000) / 2) ** 0.25)
    const overlap = (s0: number) => {
      let [both, own] = [0, 0]
      const n = 500
      for (let i = 0; i < n; i++) {
        const angle = ((i + 0.5) / n) * reach
        const s = Math.sin(angle)
        const g = Math.exp(-((s / s0) ** 2))
        both += Math.sqrt(intensity(angle)) * g * s * Math.cos(angle)
        own += g * g * s * Math.cos(angle)
      }
      return (both * both) / own
    }
    const sizes = Array.from({ length: 100 }, (_, i) => 0.1 + 0.002 * i)
    const best = sizes.reduce((a, b) => (overlap(b) > overlap(a) ? b : a))
    expect(Math.abs(bestGaussianS0(intensity, 1, 0.6, 0.15) - best)).toBeLessThan(0.002)
  })
})

describe('the half-angle at a level', () => {
  // exp(−2 θ²/θ0²) about the axis: its logarithm is straight in θ², so that points far apart give it exactly.
  const fit = gaussian(0.1)
  const at = Float64Array.from({ length: 25 }, (_, i) => -0.24 + 0.02 * i)
  const power = (of: (fromAxis: number) => number) => at.map((angle) => of(angle - 0.013))
  const bell = power((a) => 5 * Math.exp(-2 * (a / 0.1) ** 2))

  test.each([Math.exp(-2), 0.05, 0.5])('%s of the peak is where the Gaussian has it', (level) => {
    expect(meanHalfAngle(at, bell, fit, level)).toBeCloseTo(0.1 * Math.sqrt(-Math.log(level) / 2), 9)
  })

  test('is the mean of two sides of different width', () => {
    const skewed = power((a) => 5 * Math.exp(-2 * (a / (a > 0 ? 0.1 : 0.06)) ** 2))
    expect(meanHalfAngle(at, skewed, fit, 0.2)).toBeCloseTo(0.08 * Math.sqrt(-Math.log(0.2) / 2), 9)
  })

  test('lies on a straight line in θ² where the next point is dark, and is unknown where a side does not fall that far', () => {
    const cut = power((a) => (Math.abs(a) < 0.05 ? 5 : 0))
    // Last points in the light at −0.04 and 0.06, less the axis; a level of 0.2 is 0.8 of the way in θ².
    const edge = (inner: number, outer: number) => Math.sqrt(inner ** 2 + 0.8 * (outer ** 2 - inner ** 2))
    expect(meanHalfAngle(at, cut, fit, 0.2)).toBeCloseTo((edge(0.047, 0.067) + edge(0.033, 0.053)) / 2, 9)
    expect(
      meanHalfAngle(
        at,
        power((a) => (a < 0 ? 5 : 0)),
        fit,
        0.2,
      ),
    ).toBeNull()
    expect(
      meanHalfAngle(
        at,
        power((a) => (a > 0 ? 5 : 0)),
        fit,
        0.2,
      ),
    ).toBeNull()
  })

  test('is that of the first fall from the axis outwards, not of a side lobe', () => {
    const lobe = bell.map((value, i) => (i === 22 || i === 2 ? 4 : value))
    expect(meanHalfAngle(at, lobe, fit, 0.2)).toBeCloseTo(0.1 * Math.sqrt(-Math.log(0.2) / 2), 9)
  })
})

describe('the integrals of the standard', () => {
  // ∫ exp(−2 s²/s0²) s ds and ∫ exp(−2 s²/s0²) s³ ds from 0 to S, s = sin θ.
  const closed = (s0: number, limitRad: number) => {
    const [h, x] = [s0 * s0, Math.sin(limitRad) ** 2]
    const end = Math.exp((-2 * x) / h)
    return { power: (h * (1 - end)) / 4, moment: ((h * h) / 8) * (1 - end * (1 + (2 * x) / h)) }
  }

  test.each([
    [0.1, 0.4],
    [0.3, 0.25],
  ])('of a Gaussian are closed forms, s0 = %s up to %s rad', (s0, limit) => {
    const found = petermannIntegrals((a) => Math.exp(-2 * (Math.sin(a) / s0) ** 2), limit)
    expect(found.power / closed(s0, limit).power).toBeCloseTo(1, 9)
    expect(found.moment / closed(s0, limit).moment).toBeCloseTo(1, 9)
    const mfd = ((1.55 * Math.SQRT2) / Math.PI) * Math.sqrt(found.power / found.moment)
    expect(petermann2MfdUm(found, 1.55)).toBeCloseTo(mfd, 12)
  })

  test('end too early by a bias that is corrected up to 1 % and not beyond', () => {
    const bias = (s0: number, limit: number) => {
      const { power, moment } = closed(s0, limit)
      return (Math.SQRT2 / Math.PI) * Math.sqrt(power / moment) * ((Math.PI * s0) / 2) - 1
    }
    for (const limit of [0.1, 0.2, 0.3])
      expect(truncationBias(gaussian(0.15), limit)).toBeCloseTo(bias(0.15, limit), 8)
    const [small, large] = [truncationOf(gaussian(0.15), 0.26), truncationOf(gaussian(0.15), 0.18)]
    expect(small.bias).toBeLessThan(LARGEST_CORRECTION)
    expect(large.bias).toBeGreaterThan(LARGEST_CORRECTION)
    expect([small.isCorrected, large.isCorrected]).toEqual([true, false])
    // A tenth of the bias in doubt where the shape is as good as it can be, all of it from a misfit of 10 on, as a uniform distribution.
    const doubt = (misfit: number) =>
      truncationOf(gaussian(0.15, { misfit }), 0.26).shapeStandard / small.bias
    expect([doubt(1), doubt(5), doubt(10), doubt(40)]).toEqual(
      [0.1, 0.5, 1, 1].map((share) => expect.closeTo(share / Math.sqrt(3), 9)),
    )
    // A shape that is wider than it is read to be has a negative bias, of the same doubt.
    const wide = truncationOf(gaussian(0.15, { mfdInWavelengths: 2.2 / (Math.PI * 0.15) }), 0.5)
    expect(wide.bias).toBeCloseTo(1 / 1.1 - 1, 5)
    expect(wide).toMatchObject({ isCorrected: false })
    expect(wide.shapeStandard).toBeCloseTo((0.1 * -wide.bias) / Math.sqrt(3), 9)
  })

  test('change with every point by its share of both sums, and with the floor by its own integrals', () => {
    const [s0, limit, wavelength, axis] = [0.12, 0.3, 1.55, 0.02]
    // Uneven points on both sides of the axis.
    const at = Float64Array.from({ length: 61 }, (_, i) => -0.4 + 0.013 * i + 0.002 * Math.sin(i))
    const power = at.map((angle) => Math.exp(-2 * (Math.sin(angle - axis) / s0) ** 2))
    const scan = { at, power } as unknown as OrderedScan
    /** Half of both sums over the points: the mean of both sides. */
    const sums = (values: Float64Array) => {
      const whole = { power: 0, moment: 0 }
      values.forEach((value, i) => {
        const s = Math.abs(Math.sin(at[i]! - axis))
        if (Math.abs(at[i]! - axis) > limit) return
        const part = (value * s * Math.cos(at[i]! - axis) * (at[i + 1]! - at[i - 1]!)) / 4
        whole.power += part
        whole.moment += part * s * s
      })
      return whole
    }
    const whole = sums(power)
    const slopes = integralSlopes(scan, axis, limit, whole)
    const mfd = petermann2MfdUm(whole, wavelength)
    for (const i of [0, 8, 20, 31, 33, 50, 60]) {
      const moved = petermann2MfdUm(
        sums(power.map((value, k) => (k === i ? value + 1e-6 : value))),
        wavelength,
      )
      // Relative change, of the mean of both sides.
      expect(slopes[i]).toBeCloseTo((2 * (moved / mfd - 1)) / 1e-6, 3)
    }
    const lowered = withFloorLowered(whole, limit, 0.01, wavelength)
    // Twice the mean: s² and s⁴/2 are twice the integrals of a constant.
    const s2 = Math.sin(limit) ** 2
    expect(lowered).toBeCloseTo(
      petermann2MfdUm(
        { power: whole.power + 0.01 * s2, moment: whole.moment + (0.01 * s2 * s2) / 2 },
        wavelength,
      ),
      12,
    )
    const noise = { absolute: 0.02, relative: 0.1 }
    const dark = { at, power: power.map((value, i) => (i === 3 ? -0.5 : value)) } as unknown as OrderedScan
    const variance = slopes.reduce(
      (sum, slope, i) => sum + slope ** 2 * (0.02 ** 2 + (i === 3 ? 0 : 0.1 * power[i]!) ** 2),
      0,
    )
    expect(noiseThrough(slopes, dark, noise)).toBeCloseTo(Math.sqrt(variance), 12)
  })
})

test('residuals are the scan less floor and fitted shape about its axis', () => {
  const at = Float64Array.of(-0.2, 0, 0.013, 0.1)
  const scan = { at, power: Float64Array.of(1, 2, 6, 3) } as unknown as OrderedScan
  const expected = [1, 2, 6, 3].map(
    (p, i) => p - 0.2 - 5 * Math.exp(-2 * (Math.sin(at[i]! - 0.013) / 0.1) ** 2),
  )
  expect(Array.from(fittedResiduals(scan, gaussian(0.1)))).toEqual(
    expected.map((each) => expect.closeTo(each, 12)),
  )
})

describe('what is said of a far field', () => {
  const quiet = {
    ...{ petermann2MfdUm: 5, halvesUm: { positive: 5, negative: 5 }, widening: null, backlashRad: null },
    ...{ floorPower: 1e-5, peakPower: 1, truncationBias: 0.001, truncationIsCorrected: true, limitRad: 0.5 },
  } as unknown as FarFieldResult
  const said = (more: object, misfit = 1) => farFieldWarnings({ ...quiet, ...more }, 1.55, misfit)

  test('is nothing within all limits, and of each one beyond its own', () => {
    expect(said({})).toEqual([])
    expect(said({ widening: { sentence: 'A pattern.' } })).toEqual(['A pattern.'])
    const backlash = (deg: number) => said({ backlashRad: (deg * Math.PI) / 180 })
    expect([backlash(0.049), backlash(-0.049)]).toEqual([[], []])
    expect(backlash(-0.25)).toEqual([expect.stringMatching(/^The two directions of travel are 0\.3° apart/)])
    const bias = (truncationBias: number, truncationIsCorrected = true) =>
      said({ truncationBias, truncationIsCorrected })
    expect([bias(0.0029), bias(-0.0029)]).toEqual([[], []])
    expect(bias(-0.0071)).toEqual([
      expect.stringMatching(
        /^The scan ends at 28\.6° .* overestimates the MFD by about 0\.71 %\. The result is corrected/,
      ),
    ])
    expect(bias(0.05, false)).toEqual([
      expect.stringMatching(/by about 5\.0 %, which is too large to correct/),
    ])
    expect(bias(Number.NaN)).toHaveLength(1)
    const halves = (positive: number, negative: number) => said({ halvesUm: { positive, negative } })
    expect([halves(5.09, 5), halves(4.91, 5)]).toEqual([[], []])
    expect(halves(4.89, 5)).toEqual([expect.stringMatching(/^The two halves give 4\.890 and 5\.000 µm/)])
    expect(halves(5.11, 5)).toHaveLength(1)
    expect(said({ floorPower: 1.9e-3, peakPower: 2 })).toEqual([])
    expect(said({ floorPower: 0.02, peakPower: 2 })).toEqual([
      expect.stringMatching(/^The floor is 20 dB below the peak/),
    ])
    const small = (petermann2MfdUm: number) =>
      said({ petermann2MfdUm, halvesUm: { positive: petermann2MfdUm, negative: petermann2MfdUm } })
    expect(small(2.33)).toEqual([])
    expect(small(2.32)).toEqual([expect.stringMatching(/close to the wavelength/)])
    expect(said({}, 10)).toEqual([])
    expect(said({}, 10.1)).toEqual([expect.stringMatching(/^Neither a Gaussian nor a step-index mode/)])
  })
})

describe('a whole far field', () => {
  const wavelengthUm = 1.55
  const at = Float64Array.from({ length: 81 }, (_, i) => -0.4 + 0.01 * i)
  /** exp(−2 s²/s0²), of another width on either side of 0.01 rad, on a floor. */
  const scan = (right: number, left: number, floor = 0) =>
    farFieldMfd({
      wavelengthUm,
      angleRad: at,
      power: at.map((angle) => {
        const s = Math.sin(angle - 0.01)
        return 3 * Math.exp(-2 * (s / (s > 0 ? right : left)) ** 2) + floor
      }),
      ...{ wavelengthStandardUm: 0.002, angleScaleStandard: 0.004, linearityStandard: 0.01 },
    })
  const parts = ({ budget }: FarFieldResult) =>
    Object.fromEntries(budget.contributions.map(({ source, standardUm }) => [source, standardUm]))
  const mfdOf = (s0: number) => (2 * wavelengthUm) / (Math.PI * s0)

  test('that is Gaussian has the diameter of its near field by every way, and each uncertainty by its law', () => {
    const result = scan(0.12, 0.12, 1e-4)
    for (const value of [
      result.petermann2MfdUm,
      result.integralMfdUm,
      result.extrapolatedMfdUm,
      result.gaussianMfdUm,
      result.halvesUm.positive,
      result.halvesUm.negative,
    ])
      expect(value / mfdOf(0.12)).toBeCloseTo(1, 3)
    expect(result.axisRad).toBeCloseTo(0.01, 6)
    expect(result.peakPower).toBeCloseTo(3, 4)
    expect(result.floorPower).toBeCloseTo(1e-4, 6)
    expect(result.halfAngleE2Rad).toBeCloseTo(Math.asin(0.12), 4)
    expect(result.na).toBeCloseTo(0.12 * Math.sqrt(Math.log(20) / 2), 4)
    expect(result).toMatchObject({ backlashRad: null, truncationIsCorrected: true })
    const own = parts(result)
    expect(own.wavelength).toBeCloseTo((mfdOf(0.12) * 0.002) / wavelengthUm, 4)
    expect(own['angular scale']).toBeCloseTo(mfdOf(0.12) * 0.004, 4)
    expect(own['detector linearity']).toBeCloseTo((mfdOf(0.12) * 0.01) / 2, 4)
    expect(own['difference between the halves']).toBeLessThan(1e-3)
    const { angleRad, power, fitted } = result.profile
    expect(angleRad[0]).toBeCloseTo(-0.41, 5)
    for (const i of [5, 41, 60]) expect(power[i]! - fitted[i]!).toBeCloseTo(0, 4)
  })

  test('of two different sides has a uniform distribution between them, and says so', () => {
    const result = scan(0.135, 0.105)
    const { positive, negative } = result.halvesUm
    expect(Math.abs(positive - negative)).toBeGreaterThan(0.05)
    const share =
      (parts(result)['difference between the halves'] ?? 0) / (Math.abs(positive - negative) / Math.sqrt(12))
    expect(share).toBeGreaterThan(0.85)
    expect(share).toBeLessThanOrEqual(1)
    expect(result.warnings.join()).toMatch(/The two halves give/)
  })

  test('is refused beyond a quarter turn, without both flanks, or without a peak', () => {
    const of = (angleRad: Float64Array, power: (a: number) => number) => () =>
      farFieldMfd({
        wavelengthUm,
        angleRad: angleRad.filter((_, i) => i % 4 === 0),
        power: angleRad.filter((_, i) => i % 4 === 0).map(power),
      })
    const bell = (a: number) => Math.exp(-2 * (a / 0.1) ** 2)
    expect(
      of(
        at.map((a) => a * 4),
        bell,
      ),
    ).toThrow(/range of the angles is .*−1\.6 to 1\.6 rad.*degrees/)
    expect(
      of(
        at.map((a) => a - 0.39),
        bell,
      ),
    ).toThrow(/range of the scan is .*both flanks/)
    expect(
      of(
        at.map((a) => a + 0.39),
        bell,
      ),
    ).toThrow(/range of the scan is .*both flanks/)
  })
})
