// Cores without walls against profiles whose scalar modes are known in closed form.

import { describe, expect, test } from 'vitest'
import { diffusedCore } from '../../../src/optics/modeSolver/cores/gradedCore'
import type { CrossSection, GradedCore } from '../../../src/optics/modeSolver/crossSection'
import { modeWidths } from '../../../src/optics/modeSolver/modeWidths'
import { solveMode } from '../../../src/optics/modeSolver/solveMode'
import diffusedGuides from '../../reference/data/diffused-guides.json'

const HOST = 1.444
const PEAK = 1.46
const WAVELENGTH_UM = 1.55
const K = (2 * Math.PI) / WAVELENGTH_UM

/** A core of permittivity HOST^2 + (PEAK^2 - HOST^2) part(x, y). */
function sectionOf(part: (x: number, y: number) => number, boxUm: number, reachUm: number): CrossSection {
  const contrast = PEAK ** 2 - HOST ** 2
  const core: GradedCore = {
    shape: 'graded',
    xUm: 0,
    bottomUm: -boxUm / 2,
    widthUm: boxUm,
    heightUm: boxUm,
    index: PEAK,
    share: (x, y) => (Math.sqrt(HOST ** 2 + contrast * part(x, y)) - HOST) / (PEAK - HOST),
    reach: { leftUm: -reachUm, rightUm: reachUm, bottomUm: -reachUm, topUm: reachUm },
  }
  return { substrateIndex: HOST, layers: [], coverIndex: HOST, cores: [core] }
}

const options = { kind: 'scalar', wavelengthUm: WAVELENGTH_UM, cells: { x: 160, y: 120 } } as const

describe('a graded core', () => {
  test('of parabolic permittivity has the Hermite-Gauss mode: beta² = k² n² - 2 k g, w² = 2 / (k g) (D. Marcuse, Light Transmission Optics, 1972, sect. 7; from memory)', () => {
    // Permittivity n1² - g² r² continues to where the Gaussian is negligible.
    const radiusUm = 15
    const contrast = PEAK ** 2 - HOST ** 2
    const g = Math.sqrt(contrast) / radiusUm
    const part = (x: number, y: number) => Math.max(0, 1 - (x * x + y * y) / radiusUm ** 2)
    // Three radii of the mode, 5.9 µm, on either side.
    const window = { leftUm: -18, rightUm: 18, bottomUm: -18, topUm: 18 }
    const mode = solveMode(sectionOf(part, 10, radiusUm), { ...options, window })
    const exact = Math.sqrt(PEAK ** 2 - (2 * g) / K)
    expect(Math.abs(mode.effectiveIndex - exact)).toBeLessThan(1e-5)
    const { gaussian } = modeWidths(mode)
    expect(Math.abs(gaussian.mfdUm.x / (2 * Math.sqrt(2 / (K * g))) - 1)).toBeLessThan(2e-3)
    expect(gaussian.overlap).toBeGreaterThan(0.9999)
  })

  test('of sech² along both axes has s (s + 1) = k² A a² and beta² = k² n² + 2 s²/a² (L. D. Landau and E. M. Lifshitz, Quantum Mechanics, § 23; from memory)', () => {
    const aUm = 3
    const each = 0.5 * (PEAK ** 2 - HOST ** 2)
    const part = (x: number, y: number) => (Math.cosh(x / aUm) ** -2 + Math.cosh(y / aUm) ** -2) / 2
    const reachUm = 40
    const window = { leftUm: -24, rightUm: 24, bottomUm: -24, topUm: 24 }
    const mode = solveMode(sectionOf(part, 6, reachUm), { ...options, window })
    const s = (Math.sqrt(1 + 4 * K * K * each * aUm * aUm) - 1) / 2
    const exact = Math.sqrt(HOST ** 2 + (2 * s * s) / (aUm * aUm * K * K))
    expect(Math.abs(mode.effectiveIndex - exact)).toBeLessThan(1e-5)
  })

  test('diffused from the surface is guided, and its middle lies below the surface', () => {
    const core = { xUm: 0, bottomUm: -4, widthUm: 8, heightUm: 4, index: 1.46 }
    const centre = (depth: 'buried Gaussian' | 'surface Gaussian' | 'surface erfc') => {
      const section = {
        substrateIndex: HOST,
        layers: [],
        coverIndex: 1,
        cores: [diffusedCore({ ...core, depth })],
      }
      const mode = solveMode(section, { ...options, cells: { x: 48, y: 48 } })
      expect(mode.effectiveIndex).toBeGreaterThan(HOST)
      expect(mode.effectiveIndex).toBeLessThan(1.46)
      return modeWidths(mode).gaussian.centreUm.y
    }
    expect(centre('surface Gaussian')).toBeLessThan(0)
    expect(centre('surface erfc')).toBeLessThan(0)
  })

  test.each(['surface Gaussian', 'surface erfc', 'buried Gaussian'] as const)(
    '%s has the effective index that finite differences elsewhere find, to 1e-5 (recipes/diffused_guides.py)',
    (depth) => {
      const core = diffusedCore({ xUm: 0, bottomUm: -5, widthUm: 8, heightUm: 5, index: PEAK, depth })
      const coverIndex = depth === 'buried Gaussian' ? HOST : 1
      const section = { substrateIndex: HOST, layers: [], coverIndex, cores: [core] }
      const { effectiveIndex } = solveMode(section, { kind: 'scalar', wavelengthUm: WAVELENGTH_UM })
      expect(Math.abs(effectiveIndex - diffusedGuides[depth])).toBeLessThan(1e-5)
    },
  )
})
