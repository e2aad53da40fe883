import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { squareOf } from '../../../src/numerics/complex'
import { InputError } from '../../../src/numerics/inputError'
import { fresnelReflectance } from '../../../src/optics/faces/fresnel'
import {
  type FilmStack,
  PLANE_POLARISATIONS,
  stackReflectance,
  stackResponse,
  type ThinFilm,
} from '../../../src/optics/faces/multilayer'
import { uniform } from '../../support/arbitrary'

const WAVELENGTH_UM = 1.55
const film = (index: number, waves: number): ThinFilm => ({
  index,
  thicknessUm: (waves * WAVELENGTH_UM) / index,
})
const quarter = (index: number) => film(index, 0.25)
const stack = (index1: number, films: readonly ThinFilm[], index2: number): FilmStack => ({
  wavelengthUm: WAVELENGTH_UM,
  index1,
  index2,
  films,
})

const films = fc.array(
  fc.record({
    index: uniform(1, 4),
    thicknessUm: uniform(0, 1),
  }),
  { maxLength: 8 },
)
const index = uniform(1, 4)
const incidence = uniform(0, 1.5)

describe('a bare face', () => {
  // Born and Wolf, Principles of Optics, sect. 1.5.2: fresnel.ts holds the closed forms.
  test('is the Fresnel face in both polarisations, at any angle', () => {
    fc.assert(
      fc.property(index, index, incidence, (index1, index2, incidenceRad) => {
        const fresnel = fresnelReflectance({ index1, index2, incidenceRad })
        const bare = { ...stack(index1, [], index2), incidenceRad }
        expect(stackResponse(bare, 's').reflectance).toBeCloseTo(fresnel.s, 10)
        expect(stackResponse(bare, 'p').reflectance).toBeCloseTo(fresnel.p, 10)
      }),
    )
  })

  test('reflects by n1 - n2 over n1 + n2, with the sign of the tangential field', () => {
    const { amplitude } = stackResponse(stack(1, [], 1.5), 's')
    expect(amplitude.re).toBeCloseTo(-0.2, 15)
    expect(amplitude.im).toBe(0)
  })
})

describe('films', () => {
  // Born and Wolf, sect. 1.6.4: R = [(n1 n3 - n2^2) / (n1 n3 + n2^2)]^2 for a quarter wave.
  test('a quarter wave of 1.38 on glass of 1.5 leaves 1.41 %, and one of the root of the indices nothing', () => {
    expect(stackReflectance(stack(1, [quarter(1.38)], 1.5))).toBeCloseTo(0.0141, 4)
    const byHand = ((1.5 - 1.38 ** 2) / (1.5 + 1.38 ** 2)) ** 2
    expect(stackReflectance(stack(1, [quarter(1.38)], 1.5))).toBeCloseTo(byHand, 14)
    expect(stackReflectance(stack(1, [quarter(Math.sqrt(1.5))], 1.5))).toBeLessThan(1e-30)
  })

  // By hand: every quarter wave turns the admittance Y into n^2 / Y.
  test('two quarter waves of 1.38 and 1.70 on 1.52 reflect by the admittance 1.52 * 1.38^2 / 1.70^2', () => {
    const admittance = (1.52 * 1.38 ** 2) / 1.7 ** 2
    const byHand = ((1 - admittance) / (1 + admittance)) ** 2
    expect(stackReflectance(stack(1, [quarter(1.38), quarter(1.7)], 1.52))).toBeCloseTo(byHand, 14)
  })

  // H. A. Macleod, Thin-Film Optical Filters, two-layer anti-reflection coatings (from memory):
  //   tan^2 d1 = (ns - n0)(n2^2 - n0 ns) n1^2 / [(n1^2 ns - n0 n2^2)(n0 ns - n1^2)], d2 likewise, signs opposite.
  test('a V-coat of 1.38 over 2.30 on 1.52 with the two phases computed by hand reflects nothing', () => {
    const [n0, n1, n2, ns] = [1, 1.38, 2.3, 1.52]
    const common = n1 ** 2 * ns - n0 * n2 ** 2
    const tan1 = Math.sqrt(((ns - n0) * (n2 ** 2 - n0 * ns) * n1 ** 2) / (common * (n0 * ns - n1 ** 2)))
    const tan2 = Math.sqrt(((ns - n0) * (n0 * ns - n1 ** 2) * n2 ** 2) / (common * (n2 ** 2 - n0 * ns)))
    expect((Math.atan(tan1) * 180) / Math.PI).toBeCloseTo(63.59, 2)
    expect((Math.atan(tan2) * 180) / Math.PI).toBeCloseTo(18.89, 2)
    const waves1 = Math.atan(tan1) / (2 * Math.PI)
    const waves2 = (Math.PI - Math.atan(tan2)) / (2 * Math.PI)
    expect(stackReflectance(stack(n0, [film(n1, waves1), film(n2, waves2)], ns))).toBeLessThan(1e-28)
  })

  // Born and Wolf, sect. 1.6.5, periodic quarter waves: Y = (nH / nL)^(2N) nH^2 / ns for N pairs and one more H.
  test('a mirror of four pairs of 2.3 and 1.35 and one more high film on 1.52 has the reflectance of the product', () => {
    const pairs = [0, 1, 2, 3].flatMap(() => [quarter(2.3), quarter(1.35)])
    const admittance = ((2.3 / 1.35) ** 8 * 2.3 ** 2) / 1.52
    const byHand = ((1 - admittance) / (1 + admittance)) ** 2
    expect(stackReflectance(stack(1, [...pairs, quarter(2.3)], 1.52))).toBeCloseTo(byHand, 12)
    expect(byHand).toBeGreaterThan(0.98)
  })

  test('a half wave is absent, and so is a film of no thickness', () => {
    const bare = stackReflectance(stack(1, [], 1.5))
    expect(stackReflectance(stack(1, [film(2.1, 0.5)], 1.5))).toBeCloseTo(bare, 14)
    expect(stackReflectance(stack(1, [film(2.1, 0)], 1.5))).toBeCloseTo(bare, 14)
  })

  test('frustrated total reflection lets light through a gap thinner than the wavelength', () => {
    const beyond = { ...stack(1.5, [{ index: 1, thicknessUm: 0.1 }], 1.5), incidenceRad: 0.9 }
    expect(stackResponse(beyond, 's').transmittance).toBeGreaterThan(0.3)
    const wide = { ...beyond, films: [{ index: 1, thicknessUm: 20 }] }
    expect(stackResponse(wide, 's').transmittance).toBeLessThan(1e-12)
    expect(stackResponse(wide, 's').reflectance).toBeCloseTo(1, 12)
  })
})

describe('energy', () => {
  test('what a stack without absorption reflects and transmits adds up to 1 to 1e-12', () => {
    fc.assert(
      fc.property(index, films, index, incidence, (index1, own, index2, incidenceRad) => {
        for (const polarisation of PLANE_POLARISATIONS) {
          const r = stackResponse({ ...stack(index1, own, index2), incidenceRad }, polarisation)
          // Beyond the critical angle thick evanescent films lose digits of T, which is then next to nothing.
          expect(Math.abs(r.reflectance + r.transmittance - 1)).toBeLessThan(
            1e-12 * (1 + largest(own, incidenceRad)),
          )
          expect(Math.abs(r.absorptance)).toBeLessThan(1e-12 * (1 + largest(own, incidenceRad)))
        }
      }),
      { numRuns: 500 },
    )
  })

  /** How far evanescent films may blow up the sums that cancel in the end. */
  function largest(own: readonly ThinFilm[], incidenceRad: number): number {
    return incidenceRad < 0.25 ? 0 : own.reduce((sum, each) => sum + each.thicknessUm, 0) * 1e4
  }

  test('with absorption the three separate formulas still add up to 1', () => {
    fc.assert(
      fc.property(uniform(1, 2.5), uniform(0, 0.5), uniform(0, 0.8), (n, extinction, incidenceRad) => {
        const lossy = {
          ...stack(1, [{ index: n, thicknessUm: 0.3, extinction }, quarter(1.38)], 1.5),
          incidenceRad,
        }
        for (const polarisation of PLANE_POLARISATIONS) {
          const { reflectance, transmittance, absorptance } = stackResponse(lossy, polarisation)
          expect(reflectance + transmittance + absorptance).toBeCloseTo(1, 12)
          expect(absorptance).toBeGreaterThanOrEqual(-1e-14)
        }
      }),
    )
  })

  test('a stack reflects as much from behind, at the refracted angle (reciprocity)', () => {
    const own = [film(2, 0.17), film(1.38, 0.3)]
    const ahead = { ...stack(1, own, 1.5), incidenceRad: 0.5 }
    const behind = { ...stack(1.5, own.toReversed(), 1), incidenceRad: Math.asin(Math.sin(0.5) / 1.5) }
    for (const polarisation of PLANE_POLARISATIONS) {
      const [a, b] = [stackResponse(ahead, polarisation), stackResponse(behind, polarisation)]
      expect(a.transmittance).toBeCloseTo(b.transmittance, 12)
      expect(squareOf(a.amplitude)).toBeCloseTo(squareOf(b.amplitude), 12)
    }
  })
})

describe('bad numbers', () => {
  test('are refused with field, value and range', () => {
    expect(() => stackResponse(stack(0, [], 1.5), 's')).toThrow(
      'index1 is 0; must be a finite number above 0',
    )
    expect(() => stackResponse(stack(1, [{ index: -2, thicknessUm: 0.1 }], 1.5), 's')).toThrow(InputError)
    expect(() => stackResponse(stack(1, [{ index: 2, thicknessUm: -0.1 }], 1.5), 's')).toThrow(
      'film thicknessUm is -0.1; must be 0 to 1000',
    )
    expect(() => stackResponse({ ...stack(1, [], 1.5), incidenceRad: Math.PI / 2 }, 'p')).toThrow(
      'below pi/2',
    )
  })
})
