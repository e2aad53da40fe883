import { describe, expect, test } from 'vitest'
import { centredGrid, doubledGrid, gridFor } from '../../../src/optics/field/fieldGrid'
import { fieldEfficiency } from '../../../src/optics/field/fieldJoint'
import { ALIGNED_POSE } from '../../../src/optics/field/fieldPose'
import { gridProfile } from '../../../src/optics/field/gridProfile'
import { gaussianProfile, refractedProfile, stretchedProfile } from '../../../src/optics/field/modeProfile'
import { fieldPower, frameShare } from '../../../src/optics/field/sampledField'
import { lensedTipFocus } from '../../../src/optics/lens/lensedTip'
import { AIR, gaussianField } from './support'

const valueAt = (profile: ReturnType<typeof gridProfile>, x: number, y: number) => {
  const out = { re: 0, im: 0 }
  profile.at(x, y, out)
  return out
}

describe('a spline through samples', () => {
  const exact = (x: number, y: number) => Math.exp(-(x * x) / 9 - (y * y) / 4)
  const worstOn = (step: number) => {
    const grid = centredGrid(Math.round(32 / step), Math.round(32 / step), step, step)
    const profile = gridProfile(gaussianField(6, 4, grid))
    let worst = 0
    for (let i = 0; i < 200; i++) {
      const [x, y] = [5 * Math.sin(1.7 * i), 4 * Math.cos(2.3 * i)]
      worst = Math.max(worst, Math.abs(valueAt(profile, x, y).re - exact(x, y)))
    }
    return worst
  }

  test('goes through the samples and is 0 beyond them', () => {
    const grid = centredGrid(64, 64, 0.5, 0.5)
    const profile = gridProfile(gaussianField(6, 4, grid))
    expect(valueAt(profile, 1.5, -1).re).toBeCloseTo(exact(1.5, -1), 12)
    expect(valueAt(profile, 17, 0)).toEqual({ re: 0, im: 0 })
  })

  test('between them errs by the fourth power of the step (C. de Boor, A Practical Guide to Splines, from memory)', () => {
    expect(worstOn(0.5)).toBeLessThan(1e-3)
    expect(worstOn(0.5) / worstOn(0.25)).toBeGreaterThan(12)
  })

  test('keeps a phase, and measures positions from the given centre', () => {
    const field = gaussianField(6, 4, centredGrid(128, 128, 0.25, 0.25), AIR, 20)
    const middle = valueAt(gridProfile(field, 1, 0.5), 0, 0)
    const position = valueAt(gridProfile(field), 1, 0.5)
    expect(middle.re).toBeCloseTo(position.re, 12)
    expect(middle.im).toBeCloseTo(position.im, 12)
    expect(Math.abs(middle.im)).toBeGreaterThan(1e-3)
  })

  test('sampled far finer than a wave still meets a wide fibre mode on a grid of bearable size', () => {
    const fine = gridProfile(gaussianField(1.2, 1.2, centredGrid(160, 160, 0.03, 0.03)))
    const wide = gaussianProfile({ ...AIR, mfdXUm: 10.4, mfdYUm: 10.4, waistXUm: 0, waistYUm: 0 })
    const pair = { ...AIR, emitter: wide, receiver: fine, propagation: 'exact' as const }
    const found = fieldEfficiency(pair, ALIGNED_POSE)
    // Source: (2 w1 w2 / (w1^2 + w2^2))^2 per two axes, D. Marcuse (1977, from memory).
    const along = (2 * 1.2 * 10.4) / (1.2 ** 2 + 10.4 ** 2)
    expect(found.grid.nx).toBeLessThanOrEqual(512)
    expect(Math.abs(found.efficiency - along ** 2)).toBeLessThan(1e-4)
  })

  test('refuses what is no field, by name', () => {
    const field = gaussianField(6, 4)
    expect(() => gridProfile({ ...field, nx: 3.5 })).toThrow('nx is 3.5; must be a whole number')
    expect(() => gridProfile({ ...field, re: field.re.slice(1) })).toThrow(
      're.length is 16383; must be nx * ny = 16384',
    )
    expect(() => gridProfile({ ...field, re: field.re.map(() => 0) })).toThrow(
      'field is 0; must be somewhere other than 0',
    )
    expect(() => gridProfile({ ...field, re: field.re.map(() => Number.NaN) })).toThrow(
      'made of finite numbers',
    )
  })
})

describe('grids', () => {
  test('cover the window with at most the step, in powers of two, and double to finer and wider', () => {
    const grid = gridFor(40, 20, 0.5, 0.5)
    expect(grid.nx * grid.dxUm).toBeGreaterThanOrEqual(40)
    expect(grid.ny * grid.dyUm).toBeGreaterThanOrEqual(20)
    expect(Math.max(grid.dxUm, grid.dyUm)).toBeLessThanOrEqual(0.5)
    expect(Math.log2(grid.nx) % 1).toBe(0)
    const next = doubledGrid(grid)
    expect(next.nx).toBe(2 * grid.nx)
    expect(next.dxUm).toBeCloseTo(grid.dxUm / Math.SQRT2, 12)
  })

  test('that would need too many points are refused with window and step', () => {
    expect(() => gridFor(4000, 20, 0.5, 0.5)).toThrow(
      /points along x is \d+; must be at most 1024: a window of/,
    )
  })

  test('report how much of the power lies at their edge', () => {
    const wide = gaussianField(6, 6, centredGrid(64, 64, 0.5, 0.5))
    const narrow = gaussianField(6, 6, centredGrid(16, 16, 0.4, 0.4))
    expect(frameShare(wide)).toBeLessThan(1e-12)
    expect(frameShare(narrow)).toBeGreaterThan(0.01)
    // Source: the integral of exp(-2 r^2 / w^2) over the plane is pi w^2 / 2.
    expect(fieldPower(wide)).toBeCloseTo((Math.PI * 9) / 2, 9)
  })
})

describe('what a face does to a mode', () => {
  test('an angled face widens it along one axis', () => {
    const round = gaussianProfile({ ...AIR, mfdXUm: 6, mfdYUm: 6, waistXUm: 0, waistYUm: 0 })
    const wide = stretchedProfile(round, 1.2, 1)
    const expected = gaussianProfile({ ...AIR, mfdXUm: 7.2, mfdYUm: 6, waistXUm: 0, waistYUm: 0 })
    const pair = { ...AIR, emitter: wide, receiver: expected, propagation: 'exact' as const }
    expect(fieldEfficiency(pair, ALIGNED_POSE, 1e-8).efficiency).toBeGreaterThan(1 - 1e-10)
  })

  test('a gentle ground tip focuses where the ray matrix says (tests of lensedTip.ts against published values)', () => {
    const tip = { modeRadiusUm: 5.2, tipRadiusUm: 60, fibreIndex: 1.45, mediumIndex: 1, wavelengthUm: 1.55 }
    const { spotRadiusUm, workingDistanceUm } = lensedTipFocus(tip)
    const inGlass = gaussianProfile({ ...AIR, mfdXUm: 10.4, mfdYUm: 10.4, waistXUm: 0, waistYUm: 0 })
    const emitter = refractedProfile(inGlass, {
      radiusUm: tip.tipRadiusUm,
      indexBefore: 1.45,
      indexAfter: 1,
      wavelengthUm: 1.55,
    })
    const spot = 2 * spotRadiusUm
    const receiver = gaussianProfile({ ...AIR, mfdXUm: spot, mfdYUm: spot, waistXUm: 0, waistYUm: 0 })
    const pair = { ...AIR, emitter, receiver, propagation: 'paraxial' as const }
    const at = (gapUm: number) => fieldEfficiency(pair, { ...ALIGNED_POSE, gapUm }, 1e-6).efficiency
    expect(at(workingDistanceUm)).toBeGreaterThan(0.9995)
    expect(at(workingDistanceUm)).toBeGreaterThan(at(0))
  })

  test('a face without radius is refused', () => {
    const round = gaussianProfile({ ...AIR, mfdXUm: 6, mfdYUm: 6, waistXUm: 0, waistYUm: 0 })
    const face = { radiusUm: 0, indexBefore: 1.45, indexAfter: 1, wavelengthUm: 1.55 }
    expect(() => refractedProfile(round, face)).toThrow('radiusUm is 0; must be a finite number other than 0')
  })
})
