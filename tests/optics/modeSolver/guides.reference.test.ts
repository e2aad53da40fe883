// Two-dimensional guides against what is known of them from elsewhere. The full-vector solutions by scipy and the guides of Goell 1969
// are rows of docs/validation.md (tests/reference/checks/guides.ts).

import { describe, expect, test } from 'vitest'
import { brentRoot } from '../../../src/numerics/roots'
import { solveLp01 } from '../../../src/optics/fibre/stepIndexMode'
import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'
import { modeWidths } from '../../../src/optics/modeSolver/modeWidths'
import { type SolvedMode, solveMode } from '../../../src/optics/modeSolver/solveMode'
import { rectangle } from './sections'

/** Effective index for cells of no size, from the last two grids: errors fall with the square. */
function extrapolated({ levels }: SolvedMode): number {
  const [coarse, fine] = levels.slice(-2).map((level) => level.effectiveIndex)
  return fine! + (fine! - coarse!) / 3
}

test('a round step-index core has the exact scalar b to 1e-4 at V = 2.0 (b = 0.416163, reference table)', () => {
  const wavelengthUm = 1.55
  const [clad, core] = [1.444, 1.4494]
  const radiusUm = (2 * wavelengthUm) / (2 * Math.PI * Math.sqrt(core ** 2 - clad ** 2))
  const size = 2 * radiusUm
  const section: CrossSection = {
    substrateIndex: clad,
    layers: [],
    coverIndex: clad,
    cores: [{ shape: 'ellipse', xUm: 0, bottomUm: -radiusUm, widthUm: size, heightUm: size, index: core }],
  }
  const mode = solveMode(section, { kind: 'scalar', wavelengthUm, cells: { x: 300, y: 260 } })
  const b = (index: number) => (index ** 2 - clad ** 2) / (core ** 2 - clad ** 2)
  const exact = (solveLp01(2).W / 2) ** 2
  expect(exact).toBeCloseTo(0.416163, 6)
  expect(Math.abs(b(mode.effectiveIndex) - exact)).toBeLessThan(1e-4)
  expect(Math.abs(b(extrapolated(mode)) - exact)).toBeLessThan(3e-5)
  // Best Gaussian of the same table: w/a = 1.258799, overlap 0.991601.
  const { gaussian } = modeWidths(mode)
  expect(gaussian.mfdUm.x / (2 * radiusUm)).toBeCloseTo(1.2588, 3)
  expect(gaussian.mfdUm.y / (2 * radiusUm)).toBeCloseTo(1.2588, 3)
  expect(gaussian.overlap).toBeCloseTo(0.9916, 3)
})

describe('full-vector modes', () => {
  test('of a 500 x 220 nm silicon wire in oxide lie where the literature has them: 2.44 to 2.45 at 1550 nm (L. Chrostowski and M. Hochberg, Silicon Photonics Design, 2015; from memory)', () => {
    const { effectiveIndex } = solveMode(rectangle(0.5, 0.22, 3.476, 1.444), {
      kind: 'TE',
      wavelengthUm: 1.55,
    })
    expect(effectiveIndex).toBeGreaterThan(2.44)
    expect(effectiveIndex).toBeLessThan(2.45)
  })

  // Rib guides of M. S. Stern, IEE Proc. J 135 (1988) 56, index 3.44 under air at 1.55 um, as listed by C. Vassallo, Opt. Quantum
  // Electron. 29 (1997) 95: substrate, height, slab, width, effective index. From memory.
  test.each([
    [3.34, 1.3, 0.2, 2, 3.3887],
    [3.36, 1, 0.9, 3, 3.3953],
    [3.435, 6, 3.5, 4, 3.4369],
  ])(
    'of the rib on %f, %f um high with a slab of %f um and %f um wide have the published index %f to 2e-4',
    (substrateIndex, height, slab, width, published) => {
      const rib = rectangle(width, height - slab, 3.44, 1, slab)
      const section = { ...rib, substrateIndex, layers: [{ thicknessUm: slab, index: 3.44 }] }
      const mode = solveMode(section, { kind: 'TE', wavelengthUm: 1.55, cells: { x: 160, y: 120 } })
      expect(Math.abs(extrapolated(mode) - published)).toBeLessThan(2e-4)
    },
  )
})

/** E. A. J. Marcatili, Bell Syst. Tech. J. 48 (1969) 2071, eqs. for E^x_11 of a rectangle in one medium (from memory). */
function marcatiliIndex(
  width: number,
  height: number,
  core: number,
  clad: number,
  wavelengthUm: number,
): number {
  const k = (2 * Math.PI) / wavelengthUm
  const contrast = k * k * (core ** 2 - clad ** 2)
  const along = (size: number, ratio: number) =>
    brentRoot(
      (kappa) =>
        kappa * size - Math.PI + 2 * Math.atan((ratio * kappa) / Math.sqrt(contrast - kappa * kappa)),
      1e-9,
      Math.sqrt(contrast) * (1 - 1e-9),
    ).x
  const kx = along(width, (clad / core) ** 2)
  const ky = along(height, 1)
  return Math.sqrt(core ** 2 - (kx ** 2 + ky ** 2) / (k * k))
}

describe('a rectangular guide of low contrast', () => {
  const [core, clad, wavelengthUm] = [1.5, 1.4985, 1.55]
  const na = Math.sqrt(core ** 2 - clad ** 2)
  /** Height of Goell's normalised height 2 b NA / lambda. */
  const heightAt = (goell: number) => (goell * wavelengthUm) / (2 * na)
  const share = (index: number) => (index ** 2 - clad ** 2) / na ** 2
  const solved = (aspect: number, goell: number) => {
    const height = heightAt(goell)
    const section = rectangle(aspect * height, height, core, clad)
    return share(extrapolated(solveMode(section, { kind: 'TE', wavelengthUm, cells: { x: 120, y: 100 } })))
  }
  const marcatili = (aspect: number, goell: number) => {
    const height = heightAt(goell)
    return share(marcatiliIndex(aspect * height, height, core, clad, wavelengthUm))
  }

  test.each([
    [1, 3, 0.002],
    [1, 2.5, 0.003],
    [2, 2.5, 0.001],
    [2, 2, 0.002],
  ])(
    'of aspect %f and normalised height %f, well guided, agrees with Marcatili 1969 to %f in P²',
    (aspect, goell, within) => {
      expect(Math.abs(solved(aspect, goell) - marcatili(aspect, goell))).toBeLessThan(within)
    },
  )

  test('lies above Marcatili where it is weakly guided, which is where Goell 1969 found that to fail (from memory)', () => {
    expect(solved(1, 1.2) - marcatili(1, 1.2)).toBeGreaterThan(0.01)
  })
})
