// End faces for both polarisations and in both planes: Fresnel's formulas, Snell's law, and a quarter-wave film.

import { describe, expect, test } from 'vitest'
import { faceReader } from '../../../../src/analysis/path/faces/faceReader'
import { gapNotes } from '../../../../src/analysis/path/gap/gapChecks'
import type { ChainContext } from '../../../../src/analysis/path/vector/elementModels'
import { readerAt, readerTable } from '../../../../src/analysis/path/vector/valueReaders'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { Coating } from '../../../../src/model/schema/coating'
import type { GaussianJoint } from '../../../../src/optics/index'

const [GUIDE, MEDIUM, ANGLE] = [1.45, 1.2, (20 * Math.PI) / 180]

function faceOf(coating: Coating | undefined, plane: 'x' | 'y') {
  const readers = readerTable()
  const polarisation = readers.addSlot('exponent', 'polarisation', ['polarisation'])
  const wavelength = readers.addSlot('offset', 'wavelength', ['wavelength'])
  const rise = readers.addSlot('temperature', 'rise', ['rise'])
  const context = {
    readers,
    ...{
      polarisation: readerAt(polarisation),
      wavelength: readerAt(wavelength),
      temperatureRise: readerAt(rise),
    },
    wavelengthUm: 1.55,
  } as unknown as ChainContext
  const face = faceReader(context, coating, plane, 'face', ['face'])
  const v = Float64Array.from(readers.variables, ({ nominal }) => nominal)
  v[wavelength] = 1.55
  return { ...face, at: (of: 0 | 1 | 2) => v.with(polarisation, of) }
}
const inMedium = Math.asin((GUIDE / MEDIUM) * Math.sin(ANGLE))
const [cosGuide, cosMedium] = [Math.cos(ANGLE), Math.cos(inMedium)]
/** Fresnel: amplitudes of s and p (Born & Wolf, Principles of Optics, sec. 1.5). */
const s = (GUIDE * cosGuide - MEDIUM * cosMedium) / (GUIDE * cosGuide + MEDIUM * cosMedium)
const p = (MEDIUM * cosGuide - GUIDE * cosMedium) / (MEDIUM * cosGuide + GUIDE * cosMedium)
const close = (value: number) => expect.closeTo(value, 10)

describe.each(['x', 'y'] as const)('a face angled in %s', (plane) => {
  // The field of TE lies along x: in the plane of incidence of a face angled in x, across that of one angled in y.
  const [te, tm] = plane === 'x' ? [p, s] : [s, p]

  test('reflects each polarisation by Fresnel, and the mean of both for unpolarised light', () => {
    const { face, fill, at } = faceOf(undefined, plane)
    for (const [of, reflectance] of [
      [0, (te * te + tm * tm) / 2],
      [1, te * te],
      [2, tm * tm],
    ] as const) {
      fill(at(of), GUIDE, MEDIUM, ANGLE)
      expect([face.reflectance, face.transmission]).toEqual([close(reflectance), close(1 - reflectance)])
    }
    expect(face.mediumAngleRad).toBeCloseTo(inMedium, 12)
    expect(face.slopeRad).toBeCloseTo(inMedium - ANGLE, 12)
    expect(face.widthScale).toBeCloseTo(cosMedium / cosGuide, 12)
    fill(at(2), GUIDE, MEDIUM, 0)
    const square = ((GUIDE - MEDIUM) / (GUIDE + MEDIUM)) ** 2
    expect(face.reflectance).toBeCloseTo(square, 12)
  })

  test('of a stated reflectance has that, and the phase of the bare face inside the medium', () => {
    const coating: Coating = { kind: 'reflectance', reflectance: quantityOf(0.4, '%') }
    const { face, fill, inside, at } = faceOf(coating, plane)
    fill(at(1), GUIDE, MEDIUM, ANGLE)
    expect([face.reflectance, face.transmission]).toEqual([close(0.004), close(0.996)])
    expect(inside(at(0), GUIDE, MEDIUM, 's')).toMatchObject({ re: close(-Math.sqrt(0.004)) })
    expect(inside(at(0), MEDIUM, GUIDE, 's')).toMatchObject({ re: close(Math.sqrt(0.004)) })
  })

  test('of a film of a quarter wave is matched at normal incidence, and depends on polarisation at an angle', () => {
    const film = Math.sqrt(GUIDE * MEDIUM)
    const coating: Coating = {
      kind: 'films',
      films: [
        {
          index: { kind: 'value', index: quantityOf(film, '1') },
          thickness: quantityOf(1550 / 4 / film, 'nm'),
        },
      ],
    }
    const { face, fill, at, inside } = faceOf(coating, plane)
    fill(at(0), GUIDE, MEDIUM, 0)
    expect(face.reflectance).toBeCloseTo(0, 12)
    expect(inside(at(0), GUIDE, MEDIUM, 's').re).toBeCloseTo(0, 10)
    const seen = ([0, 1, 2] as const).map((of) => {
      fill(at(of), GUIDE, MEDIUM, ANGLE)
      expect(face.reflectance + face.transmission).toBeCloseTo(1, 12)
      return face.reflectance
    })
    expect(seen[0]).toBeCloseTo(((seen[1] ?? 0) + (seen[2] ?? 0)) / 2, 12)
    expect(seen[1]).not.toBeCloseTo(seen[2] ?? 0, 6)
    // The other plane exchanges the two.
    const other = faceOf(coating, plane === 'x' ? 'y' : 'x')
    other.fill(other.at(1), GUIDE, MEDIUM, ANGLE)
    expect(other.face.reflectance).toBeCloseTo(seen[2] ?? 0, 12)
  })

  test('beyond the critical angle is blocked, coated or not', () => {
    const coating: Coating = { kind: 'reflectance', reflectance: quantityOf(0.4, '%') }
    for (const each of [faceOf(undefined, plane), faceOf(coating, plane)]) {
      each.fill(each.at(0), GUIDE, 1, (43 * Math.PI) / 180)
      expect(each.face.blocked).toBe(false)
      // asin(1 / 1.45) is 43.6 degrees.
      each.fill(each.at(0), GUIDE, 1, (44 * Math.PI) / 180)
      expect(each.face.blocked).toBe(true)
    }
  })
})

test('a mode is steep beyond 0.3 rad and rough below a wavelength in the gap, each side by its narrower axis', () => {
  const of = (emitterUm: number, receiverUm: number, index = 1) =>
    gapNotes(
      {
        ...{ wavelengthUm: 1.55, index, emitterMfdXUm: emitterUm, emitterMfdYUm: 9, receiverMfdXUm: 9 },
        receiverMfdYUm: receiverUm,
      } as GaussianJoint,
      'gap',
    ).map(({ message }) => message.replace(/The (\w+) mode of .* (diverges|is smaller) .*/, '$1 $2'))
  // atan(1.55 / (pi w)) = 0.3 for w = 1.595 um.
  expect(of(3.2, 3.2)).toEqual([])
  expect(of(3.17, 3.2)).toEqual(['emitting diverges'])
  expect(of(3.2, 3.17)).toEqual(['receiving diverges'])
  expect(of(1.54, 1.56)).toEqual(['emitting diverges', 'emitting is smaller', 'receiving diverges'])
  // In glass the wavelength is 1.0333 um.
  expect(of(1.04, 9, 1.5)).toEqual(['emitting diverges'])
  expect(of(1.03, 9, 1.5)).toEqual(['emitting diverges', 'emitting is smaller'])
})
