// Two-dimensional guides against what is known of them from elsewhere.

import { describe, expect, test } from 'vitest'
import { brentRoot } from '../../../src/numerics/roots'
import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'
import { solveMode } from '../../../src/optics/modeSolver/solveMode'
import { solveLp01 } from '../../../src/optics/stepIndexMode'

const rectangle = (
  widthUm: number,
  heightUm: number,
  index: number,
  around: number,
  bottomUm = 0,
): CrossSection => ({
  substrateIndex: around,
  layers: [],
  coverIndex: around,
  cores: [{ shape: 'trapezoid', xUm: 0, bottomUm, widthUm, heightUm, sidewallRad: Math.PI / 2, index }],
})

test('a round step-index core has the exact scalar b to 1e-4 at V = 2.0 (b = 0.416163, reference table)', () => {
  const wavelengthUm = 1.55
  const [clad, core] = [1.444, 1.4494]
  const radiusUm = (2 * wavelengthUm) / (2 * Math.PI * Math.sqrt(core ** 2 - clad ** 2))
  const section: CrossSection = {
    substrateIndex: clad,
    layers: [],
    coverIndex: clad,
    cores: [
      {
        shape: 'ellipse',
        xUm: 0,
        bottomUm: -radiusUm,
        widthUm: 2 * radiusUm,
        heightUm: 2 * radiusUm,
        index: core,
      },
    ],
  }
  const { effectiveIndex } = solveMode(section, { kind: 'scalar', wavelengthUm, cells: { x: 240, y: 200 } })
  const b = (effectiveIndex ** 2 - clad ** 2) / (core ** 2 - clad ** 2)
  const exact = (solveLp01(2).W / 2) ** 2
  expect(exact).toBeCloseTo(0.416163, 6)
  expect(Math.abs(b - exact)).toBeLessThan(1e-4)
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
  const [core, clad, wavelengthUm] = [1.5, 1.485, 1.55]
  const na = Math.sqrt(core ** 2 - clad ** 2)
  /** Goell's normalised height 2 b NA / lambda. */
  const heightAt = (goell: number) => (goell * wavelengthUm) / (2 * na)
  const share = (index: number) => (index ** 2 - clad ** 2) / (core ** 2 - clad ** 2)

  test.each([
    [1, 3, 0.01],
    [1, 2.5, 0.015],
    [2, 2.5, 0.01],
    [2, 2, 0.015],
  ])(
    'of aspect %f and normalised height %f agrees with Marcatili 1969 to %f in P²',
    (aspect, goell, within) => {
      const height = heightAt(goell)
      const { effectiveIndex } = solveMode(rectangle(aspect * height, height, core, clad), {
        kind: 'TE',
        wavelengthUm,
      })
      expect(
        Math.abs(
          share(effectiveIndex) - share(marcatiliIndex(aspect * height, height, core, clad, wavelengthUm)),
        ),
      ).toBeLessThan(within)
    },
  )

  test('lies above Marcatili where the mode is weakly held, as Goell 1969 found (qualitative, from memory)', () => {
    const height = heightAt(1.2)
    const { effectiveIndex } = solveMode(rectangle(height, height, core, clad), { kind: 'TE', wavelengthUm })
    expect(share(effectiveIndex)).toBeGreaterThan(
      share(marcatiliIndex(height, height, core, clad, wavelengthUm)),
    )
  })
})

test('x', () => {
  const rib = (sub: number, H: number, d: number, w: number) => ({
    substrateIndex: sub,
    layers: [{ thicknessUm: d, index: 3.44 }],
    coverIndex: 1,
    cores: [
      {
        shape: 'trapezoid' as const,
        xUm: 0,
        bottomUm: d,
        widthUm: w,
        heightUm: H - d,
        sidewallRad: Math.PI / 2,
        index: 3.44,
      },
    ],
  })
  for (const [n, s] of [
    ['1', rib(3.34, 1.3, 0.2, 2)],
    ['2', rib(3.36, 1, 0.9, 3)],
    ['3', rib(3.435, 6, 3.5, 4)],
  ] as const)
    for (const kind of ['TE', 'TM'] as const) {
      try {
        const m = solveMode(s, { kind, wavelengthUm: 1.55 })
        console.log(
          n,
          kind,
          m.levels.map((l) => l.effectiveIndex.toFixed(7)).join(' '),
          'cut',
          m.cutOffIndex.toFixed(6),
          m.edgeLevel,
        )
      } catch (e) {
        console.log(n, kind, String(e))
      }
    }
  const h = (g: number) => (g * 1.55) / (2 * Math.sqrt(1.5 ** 2 - 1.485 ** 2))
  for (const [a, g] of [
    [1, 3],
    [1, 2.5],
    [2, 2.5],
    [2, 2],
    [1, 1.2],
    [1, 1],
    [1, 1.5],
    [1, 2],
  ] as const) {
    const m = solveMode(rectangle(a * h(g), h(g), 1.5, 1.485), { kind: 'scalar', wavelengthUm: 1.55 })
    const sh = (i: number) => (i * i - 1.485 ** 2) / (1.5 ** 2 - 1.485 ** 2)
    console.log(
      a,
      g,
      m.levels.map((l) => sh(l.effectiveIndex).toFixed(5)).join(' '),
      'marc',
      sh(marcatiliIndex(a * h(g), h(g), 1.5, 1.485, 1.55)).toFixed(5),
    )
  }
})
