import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { fresnelLossDb, fresnelReflectance } from '../../../src/optics/faces/fresnel'
import { uniform } from '../../support/arbitrary'

const index = uniform(1, 4)
const angle = uniform(0, 1.57)

describe('reflection at a face', () => {
  test('at normal incidence it is ((n1 - n2) / (n1 + n2))^2 for both polarisations, from both sides', () => {
    fc.assert(
      fc.property(index, index, (index1, index2) => {
        const { s, p, totalInternalReflection } = fresnelReflectance({ index1, index2 })
        const expected = ((index1 - index2) / (index1 + index2)) ** 2
        expect(s).toBeCloseTo(expected, 14)
        expect(p).toBeCloseTo(expected, 14)
        expect(totalInternalReflection).toBe(false)
        expect(fresnelReflectance({ index1: index2, index2: index1 }).s).toBeCloseTo(expected, 14)
      }),
    )
  })

  test('it lies between 0 and 1, s never below p, and the unpolarised value is their mean', () => {
    fc.assert(
      fc.property(index, index, angle, (index1, index2, incidenceRad) => {
        const { s, p, unpolarised } = fresnelReflectance({ index1, index2, incidenceRad })
        expect(p).toBeGreaterThanOrEqual(0)
        expect(s).toBeLessThanOrEqual(1)
        expect(s).toBeGreaterThanOrEqual(p - 1e-12)
        expect(unpolarised).toBeCloseTo((s + p) / 2, 15)
      }),
    )
  })

  test('p vanishes at the Brewster angle', () => {
    const incidenceRad = Math.atan(1.444 / 1)
    expect(fresnelReflectance({ index1: 1, index2: 1.444, incidenceRad }).p).toBeCloseTo(0, 20)
    expect(fresnelReflectance({ index1: 1, index2: 1.444, incidenceRad }).s).toBeGreaterThan(0.1)
  })

  test('the way back along the refracted ray reflects alike', () => {
    const incidenceRad = 0.5
    const refracted = Math.asin(1.444 * Math.sin(incidenceRad))
    const out = fresnelReflectance({ index1: 1.444, index2: 1, incidenceRad })
    const back = fresnelReflectance({ index1: 1, index2: 1.444, incidenceRad: refracted })
    expect(back.s).toBeCloseTo(out.s, 14)
    expect(back.p).toBeCloseTo(out.p, 14)
  })

  test('glass at 45 degrees from air: s 9.20 %, p 0.85 %', () => {
    // M. Born and E. Wolf, Principles of Optics, the usual example n = 1.5 (from memory): p is s squared at 45 degrees.
    const { s, p } = fresnelReflectance({ index1: 1, index2: 1.5, incidenceRad: Math.PI / 4 })
    expect(s).toBeCloseTo(0.092, 3)
    expect(p).toBeCloseTo(s * s, 12)
  })

  test('beyond the critical angle everything is reflected and the flag says so', () => {
    const total = fresnelReflectance({ index1: 1.444, index2: 1, incidenceRad: 0.8 })
    expect(total).toEqual({ s: 1, p: 1, unpolarised: 1, totalInternalReflection: true })
    expect(() => fresnelLossDb({ index1: 1.444, index2: 1, incidenceRad: 0.8 })).toThrow(
      'incidenceRad is 0.8; must be below the critical angle, 0.7650',
    )
  })

  test('equal media reflect nothing: exactly 0 dB', () => {
    expect(Object.is(fresnelLossDb({ index1: 1.468, index2: 1.468 }), 0)).toBe(true)
  })

  test('media without index and angles beyond grazing are refused', () => {
    expect(() => fresnelReflectance({ index1: 0, index2: 1 })).toThrow(InputError)
    expect(() => fresnelReflectance({ index1: 1, index2: Number.NaN })).toThrow(InputError)
    expect(() => fresnelReflectance({ index1: 1, index2: 1.5, incidenceRad: -0.1 })).toThrow(InputError)
    expect(() => fresnelReflectance({ index1: 1, index2: 1.5, incidenceRad: Math.PI / 2 })).toThrow(
      'must be 0 to below pi/2',
    )
  })
})
