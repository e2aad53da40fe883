import { describe, expect, test } from 'vitest'
import { effectiveFocalLengthUm, thickLens } from '../../../src/optics/beam/abcd'
import { apertureTransmission } from '../../../src/optics/beam/aperture'
import { centredGrid } from '../../../src/optics/field/fieldGrid'
import { propagateField } from '../../../src/optics/field/propagateField'
import { fieldPower } from '../../../src/optics/field/sampledField'
import {
  apertureField,
  refractField,
  rollField,
  thickLensField,
  thinLensField,
  tiltField,
} from './fieldElements'
import { AIR, gaussianField, greatestDifference, plainOverlap } from './support'

const GRID = centredGrid(256, 256, 0.5, 0.5)

describe('what a field passes', () => {
  test('a thin lens images a waist as the lens law of Saleh and Teich, ch. 3 (from memory), says', () => {
    // w0 = 4 um, z = f = 60 um: the image waist lies f behind, and is lambda f / (pi w0).
    const atLens = propagateField(gaussianField(8, 8, GRID), 60, 'paraxial')
    const atFocus = propagateField(thinLensField(atLens, 60), 60, 'paraxial')
    const mfdUm = (2 * 1.55 * 60) / (Math.PI * 4)
    expect(plainOverlap(atFocus, gaussianField(mfdUm, mfdUm, GRID))).toBeGreaterThan(1 - 1e-9)
  })

  test('a thick lens of gentle faces acts as its ray matrix', () => {
    const lens = { frontRadiusUm: 300, backRadiusUm: 250, thicknessUm: 30, glassIndex: 1.5 }
    const matrix = thickLens({
      index: lens.glassIndex,
      thicknessUm: lens.thicknessUm,
      frontRadiusUm: lens.frontRadiusUm,
      backRadiusUm: -lens.backRadiusUm,
    })
    const f = effectiveFocalLengthUm(matrix)
    const start = gaussianField(24, 24, GRID)
    const behind = thickLensField(start, lens, 'paraxial')
    // Source: q' = (A q + B) / (C q + D), Kogelnik and Li (1966).
    const zR = (Math.PI * 12 ** 2) / 1.55
    const denominator = matrix.d ** 2 + (matrix.c * zR) ** 2
    const realPart = (matrix.a * matrix.c * zR ** 2 + matrix.b * matrix.d) / denominator
    const newRayleigh = zR / denominator
    const mfd = 2 * Math.sqrt((newRayleigh * 1.55) / Math.PI)
    const expected = gaussianField(mfd, mfd, GRID, AIR, -realPart)
    expect(f).toBeGreaterThan(250)
    expect(plainOverlap(behind, expected)).toBeGreaterThan(1 - 1e-4)
    expect(behind.index).toBe(1)
  })

  test('a plane-like face changes the medium and nothing else', () => {
    const start = gaussianField(10, 10, GRID)
    const behind = refractField(start, { radiusUm: 1e9, indexBefore: 1.45, indexAfter: 1 })
    expect(greatestDifference(behind, start)).toBeLessThan(1e-6)
  })

  test('a round aperture lets through 1 - exp(-2 a^2 / w^2) (A. E. Siegman, Lasers (1986), ch. 17)', () => {
    const fine = centredGrid(512, 512, 0.1, 0.1)
    const start = gaussianField(10, 10, fine)
    const share = fieldPower(apertureField(start, 5)) / fieldPower(start)
    // The rim of the aperture is rough by a sample: 2 pi 5 rim samples of 0.1 um.
    expect(Math.abs(share - apertureTransmission({ apertureRadiusUm: 5, beamRadiusUm: 5 }))).toBeLessThan(
      1e-3,
    )
  })

  test('a slope shifts the beam by the distance times the slope', () => {
    const tilted = tiltField(gaussianField(10, 10, GRID), { tiltXRad: 0.05, tiltYRad: 0 }, 'paraxial')
    const end = propagateField(tilted, 60, 'paraxial')
    let [moment, power] = [0, 0]
    end.re.forEach((re, i) => {
      const intensity = re ** 2 + (end.im[i] ?? 0) ** 2
      moment += (GRID.x0Um + (i % 256) * 0.5) * intensity
      power += intensity
    })
    expect(Math.abs(moment / power - 3)).toBeLessThan(1e-9)
  })

  test('a roll turns from x to y', () => {
    const grid = centredGrid(128, 128, 0.25, 0.25)
    const rolled = rollField(gaussianField(9, 4, grid), Math.PI / 2)
    expect(plainOverlap(rolled, gaussianField(4, 9, grid))).toBeGreaterThan(1 - 1e-7)
    const there = rollField(rollField(gaussianField(9, 4, grid), 0.4), -0.4)
    expect(plainOverlap(there, gaussianField(9, 4, grid))).toBeGreaterThan(1 - 1e-6)
  })
})
