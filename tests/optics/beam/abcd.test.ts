import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import {
  backFocalDistanceUm,
  ballLens,
  chainMatrices,
  effectiveFocalLengthUm,
  freeSpace,
  gradientIndexRod,
  type PlacedBeam,
  sphericalInterface,
  thickLens,
  thinLens,
  transformBeam,
} from '../../../src/optics/beam/abcd'
import { beamRadiusUm, rayleighRangeUm } from '../../../src/optics/beam/gaussianBeam'
import { anyWithin, logUniform, uniform } from '../../support/arbitrary'

const BEAM: PlacedBeam = { waistRadiusUm: 5.2, waistDistanceUm: 0, wavelengthUm: 1.55, index: 1 }
const FLAT = Number.POSITIVE_INFINITY

describe('ray matrices', () => {
  test('the determinant of every element is the index before over the index after', () => {
    const index = uniform(1, 3.5)
    const radius = logUniform(5, 1e4)
    fc.assert(
      fc.property(index, index, radius, (before, after, radiusUm) => {
        const face = sphericalInterface({ indexBefore: before, indexAfter: after, radiusUm })
        expect(face.a * face.d - face.b * face.c).toBeCloseTo(before / after, 12)
        const lens = thickLens({
          index: after,
          frontRadiusUm: radiusUm,
          backRadiusUm: -radiusUm,
          thicknessUm: 100,
          surroundingIndex: before,
        })
        expect(lens.a * lens.d - lens.b * lens.c).toBeCloseTo(1, 9)
      }),
    )
  })

  test('light meets the elements in the order of the list', () => {
    expect(chainMatrices([freeSpace(10), thinLens(50)])).toEqual({ a: 1, b: 10, c: -0.02, d: 0.8 })
    expect(chainMatrices([thinLens(50), freeSpace(10)])).toEqual({ a: 0.8, b: 10, c: -0.02, d: 1 })
    expect(chainMatrices([])).toEqual({ a: 1, b: 0, c: 0, d: 1 })
  })

  test('a thick lens of no thickness is the thin lens of the lensmaker', () => {
    const lens = thickLens({ index: 1.5, frontRadiusUm: 100, backRadiusUm: -200, thicknessUm: 0 })
    expect(effectiveFocalLengthUm(lens)).toBeCloseTo(1 / (0.5 * (1 / 100 + 1 / 200)), 10)
  })

  test('a ball focuses at n D / (4 (n - 1)) from its centre, in any medium', () => {
    // E. Hecht, Optics (from memory).
    for (const [n, outside] of [
      [1.500652, 1],
      [1.746182, 1],
      [1.746182, 1.33],
    ] as const) {
      const ball = ballLens({ index: n, diameterUm: 300, surroundingIndex: outside })
      const relative = n / outside
      const focal = (relative * 300) / (4 * (relative - 1))
      expect(effectiveFocalLengthUm(ball)).toBeCloseTo(focal, 9)
      expect(backFocalDistanceUm(ball)).toBeCloseTo(focal - 150, 9)
    }
  })

  test('a quarter-pitch rod collimates a point on its face; half a pitch inverts it', () => {
    const gradientPerUm = 0.0005
    const quarter = gradientIndexRod({ axisIndex: 1.6, gradientPerUm, lengthUm: Math.PI / 2 / gradientPerUm })
    expect(quarter.d).toBeCloseTo(0, 12)
    expect(quarter.b).toBeCloseTo(1 / (1.6 * gradientPerUm), 8)
    const half = gradientIndexRod({ axisIndex: 1.6, gradientPerUm, lengthUm: Math.PI / gradientPerUm })
    expect(half.a).toBeCloseTo(-1, 12)
    expect(half.b).toBeCloseTo(0, 8)
  })

  test('a very weak rod is a slab of glass', () => {
    const rod = gradientIndexRod({ axisIndex: 1.6, gradientPerUm: 1e-9, lengthUm: 500 })
    expect(rod.b).toBeCloseTo(500 / 1.6, 6)
    expect(rod.c).toBeCloseTo(0, 12)
  })
})

describe('a Gaussian beam through elements', () => {
  test('free space moves the waist and changes nothing else', () => {
    expect(transformBeam(freeSpace(120), BEAM)).toEqual({ ...BEAM, waistDistanceUm: -120 })
  })

  test('an afocal relay scales the waist by f2 / f1 and puts it in the focal plane', () => {
    const relay = chainMatrices([
      freeSpace(300),
      thinLens(300),
      freeSpace(1275),
      thinLens(975),
      freeSpace(975),
    ])
    const image = transformBeam(relay, { ...BEAM, waistRadiusUm: 1.6 })
    expect(image.waistRadiusUm).toBeCloseTo(1.6 * 3.25, 9)
    expect(image.waistDistanceUm).toBeCloseTo(0, 7)
  })

  test('a thin lens changes the wavefront but not the radius', () => {
    fc.assert(
      fc.property(anyWithin(-500, 500), logUniform(20, 1e4), (waistDistanceUm, focalLengthUm) => {
        const before = { ...BEAM, waistDistanceUm }
        const after = transformBeam(thinLens(focalLengthUm), before)
        const w1 = beamRadiusUm(before, -before.waistDistanceUm)
        const w2 = beamRadiusUm(after, -after.waistDistanceUm)
        return Math.abs(w2 / w1 - 1) < 1e-9
      }),
    )
  })

  test('the lens law: w0 = M w, z - f = M^2 (z - f)', () => {
    // B. E. A. Saleh and M. C. Teich, Fundamentals of Photonics, ch. 3.
    fc.assert(
      fc.property(logUniform(1, 4000), logUniform(50, 3000), (z, f) => {
        const image = transformBeam(chainMatrices([freeSpace(z), thinLens(f)]), BEAM)
        const squareM = f ** 2 / ((z - f) ** 2 + rayleighRangeUm(BEAM) ** 2)
        expect(image.waistRadiusUm / (5.2 * Math.sqrt(squareM))).toBeCloseTo(1, 9)
        expect(image.waistDistanceUm).toBeCloseTo(f + squareM * (z - f), 5)
      }),
    )
  })

  test('a flat face into glass keeps the waist radius and stretches the distance by the index', () => {
    const face = sphericalInterface({ indexBefore: 1, indexAfter: 1.5, radiusUm: FLAT })
    const inside = transformBeam(face, { ...BEAM, waistDistanceUm: 40 })
    expect(inside).toMatchObject({ index: 1.5, wavelengthUm: 1.55 })
    expect(inside.waistRadiusUm).toBeCloseTo(5.2, 12)
    expect(inside.waistDistanceUm).toBeCloseTo(60, 10)
  })

  test('the way back through the reversed system restores the beam', () => {
    const forward = chainMatrices([freeSpace(80), thinLens(200), freeSpace(150)])
    const back = chainMatrices([freeSpace(150), thinLens(200), freeSpace(80)])
    const there = transformBeam(forward, BEAM)
    const home = transformBeam(back, { ...there, waistDistanceUm: -there.waistDistanceUm })
    expect(home.waistRadiusUm).toBeCloseTo(5.2, 10)
    expect(home.waistDistanceUm).toBeCloseTo(0, 8)
  })
})

describe('bad elements', () => {
  test('negative paths, lenses without focal length and media without index are refused', () => {
    expect(() => freeSpace(-1)).toThrow('lengthUm is -1; must be 0 or more')
    expect(() => thinLens(0)).toThrow('focalLengthUm is 0; must be a number other than 0')
    expect(() => sphericalInterface({ indexBefore: 1, indexAfter: 0, radiusUm: 10 })).toThrow(InputError)
    expect(() => ballLens({ index: 1.5, diameterUm: 0 })).toThrow(InputError)
    expect(() => gradientIndexRod({ axisIndex: 1.6, gradientPerUm: 0, lengthUm: 1 })).toThrow(InputError)
    expect(() => effectiveFocalLengthUm(freeSpace(1))).toThrow(InputError)
    expect(() => backFocalDistanceUm(freeSpace(1))).toThrow(InputError)
    expect(() => transformBeam({ a: 1, b: 0, c: 0, d: -1 }, BEAM)).toThrow(InputError)
    expect(() => transformBeam(freeSpace(1), { ...BEAM, waistDistanceUm: Number.NaN })).toThrow(InputError)
  })
})
