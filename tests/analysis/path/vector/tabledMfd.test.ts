// Modes read from a table against modes that are solved one by one, over all that tolerances and the band reach.

import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../../src/analysis/path/compileCandidate'
import type { ChainContext } from '../../../../src/analysis/path/vector/elementModels'
import { tabledMfd } from '../../../../src/analysis/path/vector/tabledMfd'
import { constantReader, readerOf, readerTable } from '../../../../src/analysis/path/vector/valueReaders'
import { quantityOf, type Tolerance } from '../../../../src/model/quantity/quantity'
import { stepIndexMode } from '../../../../src/optics/index'
import { matchedProject, normal } from '../../yield/cases'

const WAVELENGTH_UM = 1.55

/** The reader of a core, with what is reported about it. */
function tabled(
  core: {
    readonly diameterUm: number
    readonly na: number
    readonly diameterBy?: Tolerance
    readonly naBy?: Tolerance
  },
  bandUm: readonly [number, number] = [WAVELENGTH_UM, WAVELENGTH_UM],
  widening = 1,
) {
  const readers = readerTable()
  const shift = readers.addSlot('offset', 'shift', ['shift'])
  const diameter = readers.quantity(
    { ...quantityOf(core.diameterUm, 'um'), ...(core.diameterBy && { tolerance: core.diameterBy }) },
    'coreDiameter',
    '',
    ['diameter'],
  )
  const na = readers.quantity(
    { ...quantityOf(core.na, '1'), ...(core.naBy && { tolerance: core.naBy }) },
    'na',
    '',
    ['na'],
  )
  const reports: string[] = []
  const wavelength = readerOf([constantReader(0)], (v) => WAVELENGTH_UM + (v[shift] ?? 0))
  const context = {
    ...{ readers, wavelengthUm: WAVELENGTH_UM, wavelength, bandUm, widening },
    report: ({ message }: { message: string }) => reports.push(message),
  } as unknown as ChainContext
  const read = tabledMfd(context, ['fibre'], 'Fibre', diameter, na)
  const at = (d: number, aperture: number, shiftUm = 0) => read(Float64Array.of(shiftUm, d, aperture))
  return { read, at, reports }
}
const solved = (diameterUm: number, na: number, wavelengthUm = WAVELENGTH_UM) =>
  stepIndexMode({ coreRadiusUm: diameterUm / 2, na, wavelengthUm }).bestGaussianMfdUm

describe('a tabled mode', () => {
  const uniform = (plusMinus: number): Tolerance => ({ plusMinus, distribution: 'uniform' })
  const core = { diameterUm: 8, na: 0.12, diameterBy: uniform(0.5), naBy: uniform(0.01) }

  test('is the solved one wherever the tolerances lead, and none beyond', () => {
    const { at, reports } = tabled(core)
    expect(reports).toEqual([])
    for (const [d, na] of [
      [8, 0.12],
      [7.5, 0.11],
      [8.5, 0.13],
      [7.6, 0.128],
    ] as const)
      expect(at(d, na)).toBeCloseTo(solved(d, na), 6)
    expect(at(7.4, 0.11)).toBeNaN()
    expect(at(8.6, 0.13)).toBeNaN()
  })

  test('over a band reaches from the lowest V at its long end to the highest at its short end', () => {
    const { at, read } = tabled(core, [1.5, 1.6])
    for (const [d, na, shiftUm] of [
      [7.5, 0.11, 0.05],
      [8.5, 0.13, -0.05],
      [8, 0.12, 0.02],
    ] as const)
      expect(at(d, na, shiftUm)).toBeCloseTo(solved(d, na, WAVELENGTH_UM + shiftUm), 6)
    expect(at(7.5, 0.11, 0.06)).toBeNaN()
    expect(at(8.5, 0.13, -0.06)).toBeNaN()
    const out = new Float64Array(3)
    read.inColumns?.fill(
      [Float64Array.of(8, 7.6, 0), Float64Array.of(0.12, 0.125, 0), Float64Array.of(1.55, 1.52, 0)],
      2,
      out,
    )
    expect([...out]).toEqual([at(8, 0.12), at(7.6, 0.125, -0.03), 0])
  })

  test('with wider tolerances reaches further', () => {
    const { at } = tabled(core, [WAVELENGTH_UM, WAVELENGTH_UM], 2)
    expect(at(7.1, 0.105)).toBeCloseTo(solved(7.1, 0.105), 6)
    expect(at(6.9, 0.1)).toBeNaN()
  })

  test('of a core without tolerances is its width per radius', () => {
    const { at } = tabled({ diameterUm: 8, na: 0.12 })
    expect(at(8, 0.12)).toBeCloseTo(solved(8, 0.12), 9)
    expect(at(4, 0.12)).toBeCloseTo(solved(8, 0.12) / 2, 9)
  })

  test('is refused where tolerances leave the range of the solver on either side: V from 0.6 to 20', () => {
    // V = pi d NA / wavelength: 1.946 for 8 um and 0.12.
    expect(tabled({ ...core, naBy: uniform(0.09) }).reports[0]).toMatch(
      /vary V from 0\.4\d to 3\.\d\d; must stay within 0\.6 to 20/,
    )
    expect(tabled({ ...core, naBy: uniform(0.07) }).reports).toEqual([])
    const wide = { diameterUm: 60, na: 0.15, diameterBy: uniform(5) }
    // 60 um make 18.24, 65 um 19.76, 66 um 20.07.
    expect(tabled(wide).reports).toEqual([])
    expect(tabled({ ...wide, diameterBy: uniform(6) }).reports[0]).toMatch(/vary V from 16\.42 to 20\.07/)
  })
})

test('a run reads what the budget solves, to 1e-7 of the width', () => {
  const project = matchedProject(9, 2)
  for (const fibre of project.fibres)
    fibre.mode = {
      kind: 'core',
      coreDiameter: { ...quantityOf(8, 'um'), tolerance: normal(0.2) },
      na: { ...quantityOf(0.12, '1'), tolerance: normal(0.002) },
    }
  const exits = (['tabled', 'solved'] as const).map((modes) => {
    const result = compileCandidate(project, 'matched', { modes })
    if (!result.ok) throw new Error('compiles')
    const { guides, nominal } = result.value
    return guides[0]?.model.exit.mfdXUm(nominal) ?? Number.NaN
  })
  expect(exits[0]).toBeCloseTo(exits[1] ?? 0, 6)
})
