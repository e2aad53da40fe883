import { describe, expect, test } from 'vitest'
import { sphericalInterface, transformBeam } from '../../../src/optics/beam/abcd'
import {
  type LensedTip,
  lensedTipFocus,
  tipAberrationUm,
  tipApertureRadiusUm,
  tipReturnOverlap,
} from '../../../src/optics/lens/lensedTip'

const TIP: LensedTip = {
  modeRadiusUm: 5.2,
  tipRadiusUm: 10,
  fibreIndex: 1.45,
  mediumIndex: 1,
  wavelengthUm: 1.55,
}

describe('the focus of a lensed tip', () => {
  test.each([
    // One refracting surface on a flat Gaussian; values of the reference table, which checked them with q.
    [5.2, 10, 19.084552481948382],
    [5.2, 15, 24.33232179609763],
    [4, 8, 13.669707578005841],
  ])('of mode radius %d um and tip radius %d um lies %d um away', (modeRadiusUm, tipRadiusUm, expected) => {
    const { workingDistanceUm } = lensedTipFocus({ ...TIP, modeRadiusUm, tipRadiusUm })
    expect(workingDistanceUm).toBeCloseTo(expected, 10)
  })

  test('is what the ray matrix of one face gives, in any medium', () => {
    for (const mediumIndex of [1, 1.2, 1.33]) {
      const beam = transformBeam(
        sphericalInterface({ indexBefore: 1.45, indexAfter: mediumIndex, radiusUm: -10 }),
        { waistRadiusUm: 5.2, waistDistanceUm: 0, wavelengthUm: 1.55, index: 1.45 },
      )
      const focus = lensedTipFocus({ ...TIP, mediumIndex })
      expect(focus.spotRadiusUm).toBeCloseTo(beam.waistRadiusUm, 10)
      expect(focus.workingDistanceUm).toBeCloseTo(beam.waistDistanceUm, 10)
    }
  })

  test('needs a medium thinner than the fibre, and lengths above 0', () => {
    expect(() => lensedTipFocus({ ...TIP, mediumIndex: 1.45 })).toThrow(
      'index of the fibre is 1.45; must be above that of the medium, 1.45',
    )
    expect(() => lensedTipFocus({ ...TIP, tipRadiusUm: 0 })).toThrow('tipRadiusUm is 0')
  })
})

describe('the limits of a lensed tip', () => {
  test('light beyond R m / n from the axis is totally reflected: the incidence there is the critical angle', () => {
    const height = tipApertureRadiusUm(TIP)
    expect(Math.asin(height / TIP.tipRadiusUm)).toBeCloseTo(Math.asin(1 / 1.45), 12)
    expect(tipAberrationUm({ ...TIP, modeRadiusUm: height * 1.001 })).toBeNull()
  })

  test('the aberration grows as the square of the height where the ray is near the axis, as for any sphere', () => {
    const short = (modeRadiusUm: number) =>
      tipAberrationUm({ ...TIP, tipRadiusUm: 100, modeRadiusUm }) ?? Number.NaN
    expect(short(2) / short(1)).toBeCloseTo(4, 1)
    expect(short(1)).toBeGreaterThan(0)
  })

  test('the aberration is where a ray refracted by the law of Snell in vectors crosses the axis', () => {
    // A ray parallel to the axis meets the sphere at (h, -sag) behind its apex; n (t x N) is the same on both sides.
    const { tipRadiusUm: R, modeRadiusUm: h, fibreIndex, mediumIndex } = TIP
    const apexToHit = Math.sqrt(R * R - h * h) - R
    const [normalX, normalZ] = [h / R, Math.sqrt(R * R - h * h) / R]
    const across = (fibreIndex / mediumIndex) * -normalX // of the refracted ray, along the surface
    const along = Math.sqrt(1 - across * across)
    const [rayX, rayZ] = [along * normalX + across * normalZ, along * normalZ - across * normalX]
    const crossing = apexToHit - (h * rayZ) / rayX
    expect(rayX).toBeLessThan(0)
    const paraxial = (mediumIndex * R) / (fibreIndex - mediumIndex)
    expect(tipAberrationUm(TIP)).toBeCloseTo(paraxial - crossing, 10)
  })

  test('a nearly flat tip returns what a flat face does, a small radius much less', () => {
    expect(tipReturnOverlap({ ...TIP, tipRadiusUm: 1e7 })).toBeCloseTo(1, 9)
    expect(tipReturnOverlap(TIP)).toBeLessThan(0.02)
  })
})
