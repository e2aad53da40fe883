// Laws of the solution, how it settles, and what it refuses.

import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'
import { modeWidths } from '../../../src/optics/modeSolver/modeWidths'
import { modeSteps, NoModeError, solveMode } from '../../../src/optics/modeSolver/solveMode'
import { rectangle, siliconWire } from './sections'

const TE = { kind: 'TE', wavelengthUm: 1.55 } as const
const QUICK = { ...TE, cells: { x: 80, y: 64 } }

describe('grids', () => {
  test.each([
    ['a nitride strip', 'TE', rectangle(1, 0.4, 1.996, 1.444)],
    ['a nitride strip', 'TM', rectangle(1, 0.4, 1.996, 1.444)],
    ['a silicon tip', 'TE', siliconWire(0.18)],
  ] as const)('of %s, quasi-%s, halved twice, bring second order', (_, kind, section) => {
    const finest = solveMode(section, { kind, wavelengthUm: 1.55, cells: { x: 200, y: 150 } })
    const [first, second, third] = finest.levels.map((level) => level.effectiveIndex)
    const ratio = (first! - second!) / (second! - third!)
    expect(ratio).toBeGreaterThan(2.8)
    expect(ratio).toBeLessThan(5.2)
  })

  test('of a trapezoid settle too, to 3e-3 of index at the last halving', () => {
    const section: CrossSection = {
      ...siliconWire(0.45),
      cores: [
        {
          ...siliconWire(0.45).cores[0]!,
          sidewallRad: (80 * Math.PI) / 180,
        } as CrossSection['cores'][number],
      ],
    }
    const { levels } = solveMode(section, QUICK)
    const [, second, third] = levels.map((level) => level.effectiveIndex)
    expect(Math.abs(second! - third!)).toBeLessThan(3e-3)
    // A slightly inclined wall changes little: the same area, the same width at half height.
    const upright = solveMode(siliconWire(0.45), QUICK).effectiveIndex
    expect(Math.abs(third! - upright)).toBeLessThan(0.02)
    expect(Math.abs(third! - upright)).toBeGreaterThan(1e-4)
  })
})

describe('laws', () => {
  test('a wire turned by 90 degrees has the same TM index as its TE index before', () => {
    const lying = solveMode(siliconWire(0.4, 0.22), QUICK).effectiveIndex
    const standing = solveMode(siliconWire(0.22, 0.4), { ...QUICK, kind: 'TM' }).effectiveIndex
    expect(Math.abs(lying - standing)).toBeLessThan(3e-3)
  })

  test('all lengths and the wavelength scaled together leave the index as it is', () => {
    const small = solveMode(rectangle(1, 0.4, 2, 1.45), QUICK).effectiveIndex
    const large = solveMode(rectangle(2, 0.8, 2, 1.45), { ...QUICK, wavelengthUm: 3.1 }).effectiveIndex
    expect(large).toBeCloseTo(small, 7)
  })

  test('the place of the guide does not matter, nor whether its mirror symmetry is used', () => {
    const strip = rectangle(0.8, 0.4, 2, 1.45)
    const used = solveMode(strip, QUICK).effectiveIndex
    const moved = { ...strip, cores: strip.cores.map((core) => ({ ...core, xUm: 3 })) }
    expect(solveMode(moved, QUICK).effectiveIndex).toBeCloseTo(used, 6)
    // A distant sliver of almost the surrounding index breaks only the symmetry.
    const sliver = { ...strip.cores[0]!, xUm: 2.2, widthUm: 0.05, heightUm: 0.05, index: 1.4501 }
    const broken = { ...strip, cores: [...strip.cores, sliver] }
    expect(Math.abs(solveMode(broken, QUICK).effectiveIndex - used)).toBeLessThan(2e-3)
  })

  test('a wider core, a denser core and a shorter wavelength raise the index', () => {
    const index = (width: number, n: number, wavelengthUm: number) =>
      solveMode(rectangle(width, 0.4, n, 1.45), { ...QUICK, wavelengthUm }).effectiveIndex
    const base = index(0.8, 2, 1.55)
    expect(index(0.9, 2, 1.55)).toBeGreaterThan(base)
    expect(index(0.8, 2.05, 1.55)).toBeGreaterThan(base)
    expect(index(0.8, 2, 1.5)).toBeGreaterThan(base)
  })

  test('two strips above each other carry one wider mode than one of them, and more index', () => {
    const strip = rectangle(0.6, 0.15, 1.996, 1.444)
    const double = { ...strip, cores: [...strip.cores, { ...strip.cores[0]!, bottomUm: 0.6 }] }
    const [one, two] = [solveMode(strip, QUICK), solveMode(double, QUICK)]
    expect(two.effectiveIndex).toBeGreaterThan(one.effectiveIndex)
    expect(modeWidths(two).gaussian.centreUm.y).toBeCloseTo((0.6 + 0.15) / 2, 2)
  })

  test('a polymer core of 3 x 3 um on glass carries a mode of its size, nearly Gaussian', () => {
    const mode = solveMode(rectangle(3, 3, 1.53, 1.5), QUICK)
    const { gaussian } = modeWidths(mode)
    expect(gaussian.mfdUm.x).toBeGreaterThan(3)
    expect(gaussian.mfdUm.x).toBeLessThan(4.5)
    expect(gaussian.overlap).toBeGreaterThan(0.98)
  })

  test('quasi-TM of a tip is not mistaken for quasi-TE where it has the greater index and nothing is symmetric', () => {
    const tip = siliconWire(0.18)
    const pair = { ...tip, cores: [...tip.cores, { ...tip.cores[0]!, xUm: 1, widthUm: 0.14 }] }
    const te = solveMode(pair, QUICK)
    const tm = solveMode(pair, { ...QUICK, kind: 'TM' })
    expect(tm.effectiveIndex).toBeGreaterThan(te.effectiveIndex)
    expect(te.leadingShare).toBeGreaterThan(0.9)
    expect(tm.leadingShare).toBeGreaterThan(0.9)
  })

  test('progress rises from 0 towards 1', () => {
    const steps = modeSteps(siliconWire(0.4), QUICK)
    const shares: number[] = []
    for (let step = steps.next(); !step.done; step = steps.next()) shares.push(step.value)
    expect(shares.length).toBeGreaterThan(1)
    shares.forEach((share, i) => {
      expect(share).toBeGreaterThan(shares[i - 1] ?? 0)
      expect(share).toBeLessThan(1)
    })
  })
})

describe('what cannot be solved is named', () => {
  const refused = (section: CrossSection, options: Parameters<typeof solveMode>[1] = QUICK) => {
    try {
      solveMode(section, options)
    } catch (error) {
      if (error instanceof Error) return error
    }
    throw new Error('it was solved')
  }
  const wire = siliconWire(0.4)
  const core = wire.cores[0]!

  test('a rib whose slab guides as well: cut-off, with the index and what would help', () => {
    const slab = {
      ...rectangle(0.05, 0.01, 2, 1, 0.5),
      substrateIndex: 1.9,
      layers: [{ thicknessUm: 0.5, index: 2 }],
    }
    const error = refused(slab)
    expect(error).toBeInstanceOf(NoModeError)
    expect((error as NoModeError).reason).toBe('cut-off')
    expect(error.message).toMatch(
      /would be 1\.\d+ or less.*Use a larger core, a higher core index or a shorter wavelength/,
    )
  })

  test('a tip so thin that its mode fills hundreds of micrometres', () => {
    const error = refused(siliconWire(0.05, 0.05))
    expect(error).toBeInstanceOf(NoModeError)
    expect(error.message).toMatch(/No TE mode|extends beyond/)
  })

  test('a window that cuts the mode', () => {
    const error = refused(siliconWire(0.18), {
      ...QUICK,
      window: { leftUm: -0.4, rightUm: 0.4, bottomUm: -0.3, topUm: 0.5 },
    })
    expect(error.message).toMatch(/window is 0\.8 × 0\.8 .*; must be wide enough|No TE mode/)
  })

  test.each([
    ['an index below vacuum', { ...wire, coverIndex: 0.5 }, 'index of the top cladding'],
    ['no core', { ...wire, cores: [] }, 'number of cores'],
    ['a core of the surroundings’ index', { ...wire, cores: [{ ...core, index: 1.444 }] }, 'index of core 1'],
    [
      'a width that is no number',
      { ...wire, cores: [{ ...core, widthUm: Number.NaN }] },
      'width of core 1 in µm',
    ],
    ['a height of a kilometre', { ...wire, cores: [{ ...core, heightUm: 1e9 }] }, 'height of core 1 in µm'],
    [
      'side walls that cross',
      { ...wire, cores: [{ ...core, sidewallRad: 0.8, heightUm: 2 }] },
      'width of core 1',
    ],
    [
      'side walls that lie flat',
      { ...wire, cores: [{ ...core, sidewallRad: 0.1 }] },
      'sidewall angle of core 1 in rad',
    ],
    [
      'a layer of no thickness',
      { ...wire, layers: [{ thicknessUm: 0, index: 1.5 }] },
      'thickness of layer 1 in µm',
    ],
  ])('%s, by its field', (_, section, field) => {
    const error = refused(section as CrossSection)
    expect(error).toBeInstanceOf(InputError)
    expect((error as InputError).field).toBe(field)
    expect(error.message).toContain('must be')
  })

  test('a grid too coarse to hold the edges, and one too large to solve', () => {
    expect(refused(wire, { ...TE, cells: { x: 10, y: 100 } }).message).toBe(
      'cells.x is 10; must be 24 to 480',
    )
    expect(refused(wire, { ...TE, cells: { x: 100, y: 4000 } }).message).toBe(
      'cells.y is 4000; must be 24 to 480',
    )
    const many = Array.from({ length: 12 }, (_, i) => ({ ...core, xUm: i * 2 + 0.01 * i * i, widthUm: 0.3 }))
    expect(refused({ ...wire, cores: many }, { ...TE, cells: { x: 24, y: 24 } }).message).toMatch(
      /cells is 24; must be at least \d+ for so many edges/,
    )
  })

  test('a wavelength out of all range', () => {
    expect(refused(wire, { ...QUICK, wavelengthUm: 1000 }).message).toContain(
      'wavelengthUm is 1000; must be 0.2 to 20',
    )
  })
})
