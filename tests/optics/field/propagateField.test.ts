import { describe, expect, test } from 'vitest'
import { beamRadiusUm } from '../../../src/optics/beam/gaussianBeam'
import { centredGrid } from '../../../src/optics/field/fieldGrid'
import { propagateField } from '../../../src/optics/field/propagateField'
import { fieldPower, frameShare } from '../../../src/optics/field/sampledField'
import { AIR, gaussianField, greatestDifference, plainOverlap } from './support'

const GRID = centredGrid(256, 256, 0.4, 0.4)

describe('propagation by the angular spectrum', () => {
  test.each(['exact', 'paraxial'] as const)('keeps the energy to 1e-10 (%s)', (propagation) => {
    const start = gaussianField(6, 4.2, GRID)
    for (const distanceUm of [1, 20, 60]) {
      const end = propagateField(start, distanceUm, propagation)
      expect(Math.abs(fieldPower(end) / fieldPower(start) - 1)).toBeLessThan(1e-10)
    }
  })

  test('gives the Gaussian that Kogelnik and Li (1966) give, paraxially', () => {
    const start = gaussianField(8, 5, GRID)
    const end = propagateField(start, 30, 'paraxial')
    const expected = gaussianField(8, 5, GRID, AIR, -30)
    expect(Math.abs(plainOverlap(end, expected) - 1)).toBeLessThan(1e-12)
    expect(frameShare(end)).toBeLessThan(1e-12)
  })

  test('goes back to where it came from', () => {
    const start = gaussianField(8, 5, GRID)
    const there = propagateField(start, 30, 'paraxial')
    expect(greatestDifference(propagateField(there, -30, 'paraxial'), start)).toBeLessThan(1e-12)
    const half = propagateField(propagateField(start, 15, 'exact'), 15, 'exact')
    expect(greatestDifference(half, propagateField(start, 30, 'exact'))).toBeLessThan(1e-12)
  })

  test('differs from the paraxial for small modes and not for large ones', () => {
    const distance = (mfdUm: number) => {
      const start = gaussianField(mfdUm, mfdUm, centredGrid(512, 512, 0.2, 0.2))
      return 1 - plainOverlap(propagateField(start, 20, 'exact'), propagateField(start, 20, 'paraxial'))
    }
    expect(distance(1.8)).toBeGreaterThan(1e-2)
    expect(distance(3.2)).toBeGreaterThan(1e-4)
    expect(distance(10.4)).toBeLessThan(1e-6)
  })

  test('waves beyond k die away over the distance, as exp(-z sqrt(k_t^2 - k^2)) says', () => {
    const grid = centredGrid(64, 64, 0.1, 0.1)
    const perSample = (2 * Math.PI * 12) / 64 // 12 periods across the window: beyond k in air at 1.55 um
    const wave = gaussianField(1, 1, grid)
    const standing = { ...wave, re: wave.re.map((_, i) => Math.cos(perSample * (i % 64))) }
    const [kt, k] = [perSample / 0.1, (2 * Math.PI) / 1.55]
    const kept = fieldPower(propagateField({ ...standing, im: wave.im.map(() => 0) }, 0.2, 'exact'))
    const expected = Math.exp(-2 * 0.2 * Math.sqrt(kt ** 2 - k ** 2))
    expect(kept / fieldPower({ ...standing, im: wave.im.map(() => 0) })).toBeCloseTo(expected, 12)
  })

  test('spreads as fast as the beam formula says', () => {
    const end = propagateField(gaussianField(6, 6, GRID), 40, 'paraxial')
    let [moment, power] = [0, 0]
    end.re.forEach((re, i) => {
      const x = GRID.x0Um + (i % 256) * 0.4
      const intensity = re ** 2 + (end.im[i] ?? 0) ** 2
      moment += x * x * intensity
      power += intensity
    })
    const radius = beamRadiusUm({ waistRadiusUm: 3, ...AIR }, 40)
    expect(Math.abs((2 * Math.sqrt(moment / power)) / radius - 1)).toBeLessThan(1e-9)
  })

  test('refuses to go back exactly, by name', () => {
    expect(() => propagateField(gaussianField(6, 6), -1, 'exact')).toThrow(
      'distanceUm is -1; must be 0 to 1000000',
    )
  })
})
