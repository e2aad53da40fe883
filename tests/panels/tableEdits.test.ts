// Tables brought for a core, from their text to the solved mode: the guides whose scalar modes are known in closed form.

import { describe, expect, test } from 'vitest'
import { coreProfiles } from '../../src/analysis/crossSection/coreProfile'
import { opticsSection } from '../../src/analysis/crossSection/opticsSection'
import { setVariable } from '../../src/analysis/crossSection/sweepVariable'
import { readIndexMap } from '../../src/measure/index'
import { newCore } from '../../src/model/parts/newCrossSection'
import { coreValue, quantityOf } from '../../src/model/quantity/quantity'
import type { CoreEntry, CrossSectionEntry } from '../../src/model/schema/crossSection'
import { InputError } from '../../src/numerics/inputError'
import { modeWidths } from '../../src/optics/modeSolver/modeWidths'
import { solveMode } from '../../src/optics/modeSolver/solveMode'
import {
  readStepOverWavelength,
  readStepProfile,
  setIndexMap,
  setStepProfile,
} from '../../src/panels/parts/crossSection/tableEdits'
import { pairsText, readPairs } from '../../src/panels/parts/modeShape/pairsText'

const HOST = 1.444
const PEAK = 1.46
const WAVELENGTH_UM = 1.55
const K = (2 * Math.PI) / WAVELENGTH_UM
const CONTRAST = PEAK ** 2 - HOST ** 2
const scalar = { kind: 'scalar', wavelengthUm: WAVELENGTH_UM, cells: { x: 160, y: 120 } } as const

const glass = (index: number) => ({ kind: 'value', index: quantityOf(index, '1') }) as const

function sectionWith(core: CoreEntry, cover = HOST): CrossSectionEntry {
  return {
    polarisation: 'TE',
    substrate: { index: glass(HOST) },
    layers: [],
    cover: { index: glass(cover) },
    cores: [core],
  }
}

/** n = sqrt(HOST² + contrast part(x, y)) as a table over ±reach. */
function mapText(part: (x: number, y: number) => number, reachUm: number, stepUm: number): string {
  const rows = ['x (um),y (um),index']
  for (let y = -reachUm; y <= reachUm + 1e-9; y += stepUm)
    for (let x = -reachUm; x <= reachUm + 1e-9; x += stepUm)
      rows.push(`${x},${y},${Math.sqrt(HOST ** 2 + CONTRAST * part(x, y))}`)
  return rows.join('\n')
}

function mapped(text: string): CoreEntry {
  const core: CoreEntry = { ...newCore('core-1', 0), profile: 'index map' }
  setIndexMap(core, readIndexMap(text, 'map.csv').map)
  return core
}

const parabola = (x: number, y: number) => Math.max(0, 1 - (x * x + y * y) / 15 ** 2)

describe('an index map brought as a table', () => {
  test('of parabolic permittivity has the Hermite-Gauss mode: beta² = k² n² - 2 k g, w² = 2 / (k g) (D. Marcuse, Light Transmission Optics, 1972, sect. 7; from memory)', () => {
    const section = opticsSection(sectionWith(mapped(mapText(parabola, 18, 0.25))), WAVELENGTH_UM)
    const window = { leftUm: -18, rightUm: 18, bottomUm: -18, topUm: 18 }
    const mode = solveMode(section, { ...scalar, window })
    const g = Math.sqrt(CONTRAST) / 15
    expect(Math.abs(mode.effectiveIndex - Math.sqrt(PEAK ** 2 - (2 * g) / K))).toBeLessThan(1e-5)
    expect(Math.abs(modeWidths(mode).gaussian.mfdUm.x / (2 * Math.sqrt(2 / (K * g))) - 1)).toBeLessThan(2e-3)
  })

  test('of sech² along both axes has s (s + 1) = k² A a² and beta² = k² n² + 2 s²/a² (L. D. Landau and E. M. Lifshitz, Quantum Mechanics, § 23; from memory)', () => {
    const aUm = 3
    const part = (x: number, y: number) => (Math.cosh(x / aUm) ** -2 + Math.cosh(y / aUm) ** -2) / 2
    const core = mapped(mapText(part, 24, 0.2))
    // The ridges along both axes reach the border, whose median is that of the glass and 1e-5 of theirs.
    const around = core.map?.background ?? 0
    expect(around - HOST).toBeLessThan(2e-5)
    const section = opticsSection(
      { ...sectionWith(core, around), substrate: { index: glass(around) } },
      WAVELENGTH_UM,
    )
    const window = { leftUm: -24, rightUm: 24, bottomUm: -24, topUm: 24 }
    const mode = solveMode(section, { ...scalar, window })
    const s = (Math.sqrt(1 + 2 * K * K * CONTRAST * aUm * aUm) - 1) / 2
    const exact = Math.sqrt(HOST ** 2 + (2 * s * s) / (aUm * aUm * K * K))
    expect(Math.abs(mode.effectiveIndex - exact)).toBeLessThan(1e-5)
  })

  test('keeps its place, peak and sizes, and a width of its own stretches it', () => {
    const gaussian = (x: number, y: number) => Math.exp(-(((x - 2) / 4) ** 2) - ((y + 6) / 3) ** 2)
    const rows = ['x;y;n']
    for (let y = -20; y <= 0; y += 0.5)
      for (let x = -14; x <= 18; x += 0.5) rows.push(`${x};${y};${1.45 + 0.01 * gaussian(x, y)}`)
    const core = mapped(rows.join('\n'))
    expect(coreValue(core.x, 'corePosition')).toBeCloseTo(2, 3)
    expect(coreValue(core.width, 'guideSize')).toBeCloseTo(8, 1)
    expect(coreValue(core.height, 'guideSize')).toBeCloseTo(6, 1)
    expect(coreValue(core.bottom, 'corePosition')).toBeCloseTo(-9, 1)
    const section = { ...sectionWith(core), substrate: { index: glass(1.45) } }
    const widthAt = (value: number) => {
      const changed = structuredClone(section)
      setVariable(changed, { kind: 'width', coreId: 'core-1' }, value)
      const { alongX } = coreProfiles(changed, 'core-1', 1.55) ?? { alongX: null }
      const { atUm, index } = alongX ?? { atUm: [], index: [] }
      const level = 1.45 + 0.01 / Math.E
      const at = index.findLastIndex((each) => each > level)
      const [a = 0, b = 0] = [index[at], index[at + 1]]
      return 2 * ((atUm[at] ?? 0) + (((atUm[at + 1] ?? 0) - (atUm[at] ?? 0)) * (a - level)) / (a - b))
    }
    expect(Math.abs(widthAt(8) - 8)).toBeLessThan(0.1)
    expect(Math.abs(widthAt(16) - 16)).toBeLessThan(0.2)
  })

  test('says nothing of the air above the surface, and a skew one is not mirrored', () => {
    // Air in the rows above the surface, and a core that leans to the right.
    const skew = (x: number, y: number) => Math.exp(-((x - 0.25 * y) ** 2) / 9 - ((y + 5) / 3) ** 2)
    const rows = ['x,y,index']
    for (let y = -16; y <= 2; y += 0.5)
      for (let x = -10; x <= 10; x += 0.5) rows.push(`${x},${y},${y > 0 ? 1 : 1.444 + 0.02 * skew(x, y)}`)
    const section = opticsSection(sectionWith(mapped(rows.join('\n')), 1), WAVELENGTH_UM)
    const [core] = section.cores
    if (core?.shape !== 'graded') throw new Error('not graded')
    expect(core.isSkew).toBe(true)
    expect(core.reach.topUm).toBe(0)
    expect(core.share(0, 1)).toBe(0)
    const mode = solveMode(section, { ...scalar, cells: { x: 40, y: 40 } })
    expect(mode.effectiveIndex).toBeGreaterThan(1.444)
    expect(mode.effectiveIndex).toBeLessThan(1.464)
  })
})

describe('profile tables of width and depth', () => {
  test('of a sech² slab: beta² = k² n² + s²/a², less (pi/W)² between walls W apart (Landau and Lifshitz, § 23; from memory)', () => {
    const [aUm, depthUm, wallsUm] = [3, 24, 30]
    const part = (d: number) => Math.cosh((d - depthUm) / aUm) ** -2
    const share = (d: number) => (Math.sqrt(HOST ** 2 + CONTRAST * part(d)) - HOST) / (PEAK - HOST)
    const depths = Array.from({ length: 385 }, (_, i) => i / 8)
    const core: CoreEntry = {
      ...newCore('core-1', 0),
      profile: 'user profiles',
      index: glass(PEAK),
    }
    const along = readStepProfile([0, 40], [1, 1])
    const depth = readStepProfile(depths, depths.map(share))
    if (typeof along === 'string' || typeof depth === 'string') throw new Error(`${along} ${depth}`)
    setStepProfile(core, 'widthProfile', along)
    setStepProfile(core, 'depthProfile', depth)
    // Surface, the upper edge of the core, at y = 0.
    core.bottom = quantityOf(-coreValue(core.height, 'guideSize'), 'um')
    const section = opticsSection(sectionWith(core), WAVELENGTH_UM)
    const half = wallsUm / 2
    const window = { leftUm: -half, rightUm: half, bottomUm: -depthUm - 22, topUm: -2 }
    const mode = solveMode(section, { ...scalar, window })
    const s = (Math.sqrt(1 + 4 * K * K * CONTRAST * aUm * aUm) - 1) / 2
    const exact = Math.sqrt(HOST ** 2 + (s * s) / (aUm * aUm * K * K) - (Math.PI / (wallsUm * K)) ** 2)
    expect(Math.abs(mode.effectiveIndex - exact)).toBeLessThan(1e-5)
  })

  test('make a core twice as wide as its table reaches from the middle, and as deep as it reaches from the surface', () => {
    // A width is that of 1/e of the peak step, which both tables reach at 3 um.
    const core: CoreEntry = { ...newCore('core-1', -4), profile: 'user profiles' }
    const table = readStepProfile([0, 3, 6], [1, 1 / Math.E, 0])
    if (typeof table === 'string') throw new Error(table)
    setStepProfile(core, 'widthProfile', table)
    setStepProfile(core, 'depthProfile', table)
    expect(coreValue(core.width, 'guideSize')).toBeCloseTo(2 * coreValue(core.height, 'guideSize'), 9)
    expect(coreValue(core.height, 'guideSize')).toBeCloseTo(3, 4)
    setStepProfile(core, 'widthProfile', null)
    expect(core.widthProfile).toBeUndefined()
    expect(coreValue(core.height, 'guideSize')).toBeCloseTo(3, 4)
  })

  test('a peak step over wavelength goes before the peak index, straight between its rows', () => {
    const steps = readStepOverWavelength([1300, 1600], [0.02, 0.014])
    if (typeof steps === 'string') throw new Error(steps)
    const core: CoreEntry = {
      ...newCore('core-1', -4),
      profile: 'surface Gaussian',
      stepOverWavelength: steps,
    }
    const peakAt = (um: number) => opticsSection(sectionWith(core), um).cores[0]?.index ?? 0
    expect(peakAt(1.45) - HOST).toBeCloseTo(0.017, 9)
    expect(peakAt(1.2) - HOST).toBeCloseTo(0.02, 9)
    expect(peakAt(1.65) - HOST).toBeCloseTo(0.014, 9)
  })

  test('what is wrong is named with its row, its value and what is allowed', () => {
    expect(readPairs('0 1\nx 2', { first: 'a distance in µm', second: 'a share' })).toBe(
      'Row 2 is "x 2"; must be a distance in µm and a share',
    )
    expect(readPairs(pairsText([0, 1.5], [1, 0.2]), { first: '', second: '' })).toEqual({
      first: [0, 1.5],
      second: [1, 0.2],
    })
    expect(readStepProfile([1, 2], [1, 0])).toBe('distance is 1; must be 0 in the first row')
    expect(readStepProfile([0, 2, 1], [1, 0.5, 0])).toBe('distance is 1; must be above 2')
    expect(readStepProfile([0, 2], [0, 0])).toBe('the largest fraction is 0; must be above 0')
    expect(() => opticsSection(sectionWith({ ...newCore('c', 0), profile: 'index map' }), 1.55)).toThrow(
      InputError,
    )
  })
})
