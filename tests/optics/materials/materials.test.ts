import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import {
  findMaterial,
  groupIndex,
  MATERIAL_ALIASES,
  MATERIALS,
  refractiveIndex,
} from '../../../src/optics/materials/materials'
import { uniform } from '../../support/arbitrary'

const names = Object.keys(MATERIALS)

describe('refractive indices', () => {
  test('silicon follows all five entries of the 1980 table that were read', () => {
    // H. H. Li, J. Phys. Chem. Ref. Data 9 (1980) 561, 293 K, four decimals.
    for (const [wavelengthUm, index] of [
      [1.3, 3.5016],
      [1.32, 3.499],
      [1.5, 3.4799],
      [1.55, 3.4757],
      [1.6, 3.4719],
    ] as const) {
      expect(Math.abs(refractiveIndex('silicon', wavelengthUm) - index)).toBeLessThan(5.1e-5)
    }
  })

  test('the two silicon data sets differ by 0.002 at 1550 nm, as published', () => {
    const difference =
      refractiveIndex('silicon (Salzberg and Villa)', 1.55) - refractiveIndex('silicon', 1.55)
    expect(difference).toBeCloseTo(0.002, 4)
  })

  test('all are known at the design wavelengths of the trade', () => {
    for (const name of names.filter((key) => !key.includes('Salzberg'))) {
      for (const wavelengthUm of [1.31, 1.55, 1.6537]) {
        expect(refractiveIndex(name, wavelengthUm)).toBeGreaterThanOrEqual(1)
      }
    }
  })

  test('air beyond 1.69 um lies between the last fitted value and the refractivity in microwaves', () => {
    // Dry air, n - 1 = 77.689e-6 K/hPa p / T: J. M. Rueger, FIG XXII International Congress (2002), from memory. No band of the
    // infrared adds more than lies between the two.
    const microwaves = (77.689e-6 * 1013.25) / 288.15
    for (const wavelengthUm of [1.75, 2, 2.3, 2.5]) {
      const refractivity = refractiveIndex('air', wavelengthUm) - 1
      expect(Math.abs(refractivity - microwaves)).toBeLessThan(6e-7)
      expect(Math.abs(refractivity - (refractiveIndex('air', 1.69) - 1))).toBeLessThan(3e-7)
    }
  })

  test('outside its range a material has no index, and the message says where it has', () => {
    expect(() => refractiveIndex('fused silica', 4)).toThrow(
      'wavelength for Fused silica, SiO2 is 4000 nm; must be 210 to 3710 nm',
    )
    expect(() => refractiveIndex('air', 2.6)).toThrow('must be 230 to 2500 nm')
    for (const name of names) {
      const [least, greatest] = findMaterial(name).rangeUm
      expect(refractiveIndex(name, least)).toBeGreaterThan(1)
      expect(refractiveIndex(name, greatest)).toBeGreaterThan(1)
      expect(() => refractiveIndex(name, least - 1e-6)).toThrow(InputError)
      expect(() => refractiveIndex(name, greatest + 1e-6)).toThrow(InputError)
      expect(() => refractiveIndex(name, Number.NaN)).toThrow(InputError)
    }
  })

  test('every alias, in any case, is its material', () => {
    for (const [alias, name] of Object.entries(MATERIAL_ALIASES)) {
      expect(refractiveIndex(alias.toUpperCase(), 1.55)).toBe(refractiveIndex(name, 1.55))
    }
    expect(refractiveIndex(' SiO2 ', 1.55)).toBe(refractiveIndex('fused silica', 1.55))
  })

  test('an unknown name is answered with the list of known ones, even a hostile one', () => {
    expect(() => refractiveIndex('unobtainium', 1.55)).toThrow(
      /^material is "unobtainium"; must be one of air, fused silica/,
    )
    for (const name of ['__proto__', 'constructor', 'toString', '']) {
      expect(() => refractiveIndex(name, 1.55)).toThrow(InputError)
    }
  })
})

describe('group indices', () => {
  test('they are n - lambda dn/d(lambda), by central difference', () => {
    const within = (name: string) => {
      const [least, greatest] = findMaterial(name).rangeUm
      return uniform(least * 1.02, Math.min(greatest * 0.98, 5))
    }
    for (const name of names) {
      fc.assert(
        fc.property(within(name), (wavelengthUm) => {
          const h = 1e-4 * wavelengthUm
          const slope =
            (refractiveIndex(name, wavelengthUm + h) - refractiveIndex(name, wavelengthUm - h)) / (2 * h)
          const expected = refractiveIndex(name, wavelengthUm) - wavelengthUm * slope
          expect(groupIndex(name, wavelengthUm)).toBeCloseTo(expected, 6)
        }),
      )
    }
  })
})

test('every material names its source, and what is from memory says so', () => {
  for (const material of Object.values(MATERIALS)) {
    expect(material.source.length).toBeGreaterThan(20)
    expect(material.thermoOpticSource).toMatch(/from memory|ideal gas/)
    expect(material.rangeUm[0]).toBeLessThan(material.rangeUm[1])
  }
})

test('the temperature slope of silicon is the derivative of the 1980 equation', () => {
  // n^2 = e(T) + L(T) / lambda^2 with e = 11.4445 + 2.7739e-4 T + 1.7050e-6 T^2 - 8.1347e-10 T^3 and
  // L = 0.8948 + 4.3977e-4 T + 7.3835e-8 T^2 (H. H. Li 1980, coefficients from memory).
  const n = (T: number) =>
    Math.sqrt(
      11.4445 +
        2.7739e-4 * T +
        1.705e-6 * T ** 2 -
        8.1347e-10 * T ** 3 +
        (0.8948 + 4.3977e-4 * T + 7.3835e-8 * T ** 2) / 1.55 ** 2,
    )
  expect(n(293)).toBeCloseTo(refractiveIndex('silicon', 1.55), 8)
  expect((n(294) - n(292)) / 2 / MATERIALS.silicon.thermoOpticPerK).toBeCloseTo(1, 1)
})
