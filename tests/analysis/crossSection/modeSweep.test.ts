import { isDeepStrictEqual } from 'node:util'
import { describe, expect, test } from 'vitest'
import {
  type FacetMode,
  facetModeSteps,
  type ModeRequest,
} from '../../../src/analysis/crossSection/facetMode'
import { bestOf, betweenPoints, sweepSteps } from '../../../src/analysis/crossSection/modeSweep'
import { setVariable, sweepChoices } from '../../../src/analysis/crossSection/sweepVariable'
import { demoProject } from '../../../src/model/index'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { coreValue } from '../../../src/model/quantity/quantity'
import { attemptedSteps } from '../../../src/numerics/outcome'

const CELLS = { x: 40, y: 40 }
const fibre = demoProject().fibres[0]!

function request(widthUm = 0.6): ModeRequest {
  return { section: newCrossSection(widthUm, 0.2), wavelengthUm: 1.6537, fibre, cells: CELLS }
}

function finished<T>(steps: Generator<number, T, void>): {
  readonly value: T
  readonly told: readonly number[]
} {
  const told: number[] = []
  for (;;) {
    const step = steps.next()
    if (step.done) return { value: step.value, told }
    told.push(step.value)
  }
}

describe('the mode of a facet’s cross-section', () => {
  const mode: FacetMode = finished(facetModeSteps(request())).value

  test('comes with three grids, each twice as fine as the one before', () => {
    expect(mode.levels).toHaveLength(3)
    const [first, second, third] = mode.levels
    expect(second!.nx).toBe(2 * first!.nx)
    expect(third!.ny).toBe(2 * second!.ny)
    expect(third!.effectiveIndex).toBe(mode.effectiveIndex)
  })

  test('states what the grid leaves open: a third of the last change', () => {
    const [, second, third] = mode.levels
    expect(mode.indexErrorEstimate).toBeCloseTo(
      Math.abs(third!.effectiveIndex - second!.effectiveIndex) / 3,
      12,
    )
    expect(mode.mfdErrorEstimateUm.x).toBeCloseTo(Math.abs(third!.mfdXUm - second!.mfdXUm) / 3, 12)
  })

  test('gives the loss to the fibre by the field and by Gaussians, which differ by some tenths of a decibel', () => {
    const { fieldDb, gaussianDb } = mode.fibreLoss!
    expect(fieldDb).toBeGreaterThan(1)
    expect(Math.abs(fieldDb - gaussianDb)).toBeGreaterThan(0.1)
    expect(Math.abs(fieldDb - gaussianDb)).toBeLessThan(2.5)
  })

  test('says that the substrate was left out and how much leaks', () => {
    expect(mode.leakage!.dbPerMm).toBeGreaterThan(0)
    expect(mode.warnings.join(' ')).toContain('The substrate index exceeds the effective index')
  })

  test('warns of strong leakage once the substrate is near', () => {
    const near = newCrossSection(0.6, 0.2)
    setVariable(near, { kind: 'thickness', layerId: 'layer-1' }, 0.8)
    const leaky = finished(facetModeSteps({ ...request(), section: near })).value
    expect(leaky.leakage?.dbPerMm).toBeGreaterThan(10)
    expect(leaky.warnings.join(' ')).toMatch(/≈ \d+ dB\/mm; a first-order estimate is rough/)
    expect(mode.warnings.join(' ')).not.toContain('is rough')
  })

  test('survives the message port of a worker', () => {
    expect(isDeepStrictEqual(structuredClone(mode), mode)).toBe(true)
  })
})

describe('a sweep', () => {
  const wanted = {
    ...request(),
    variable: { kind: 'width', coreId: 'core-1' },
    from: 0.1,
    to: 0.9,
    points: 5,
  } as const
  const { value: result, told } = finished(sweepSteps(wanted))

  test('keeps values without a mode with their reason', () => {
    const slanted = newCrossSection(0.5, 0.2)
    setVariable(slanted, { kind: 'sidewall', coreId: 'core-1' }, Math.PI / 4)
    const swept = finished(sweepSteps({ ...wanted, section: slanted, points: 3 })).value
    expect(swept.points[0]!.numbers).toBeNull()
    expect(swept.points[0]!.message).toMatch(/sidewalls would cross/)
    expect(swept.points.at(-1)!.numbers).not.toBeNull()
  })

  test('narrows the mode as the tip widens', () => {
    // The five that were asked for, and the one between them at the lowest loss.
    expect(result.points.length).toBeGreaterThanOrEqual(5)
    const mfds = result.points.flatMap(({ numbers }) =>
      numbers === null ? [] : [numbers.widths.gaussian.mfdUm.x],
    )
    expect(mfds.length).toBeGreaterThan(1)
    mfds.slice(1).forEach((mfd, i) => {
      expect(mfd).toBeLessThan(mfds[i]!)
    })
  })

  test('reports its progress, rising to 1', () => {
    told.slice(1).forEach((share, i) => {
      expect(share).toBeGreaterThanOrEqual(told[i]!)
    })
    expect(told.at(-1)).toBe(1)
  })

  test('over one value gives what solving that value gives', () => {
    const alone = finished(facetModeSteps(request(0.9))).value
    expect(result.points.at(-1)!.numbers!.effectiveIndex).toBe(alone.effectiveIndex)
    expect(result.points.at(-1)!.numbers!.fibreLoss!.fieldDb).toBe(alone.fibreLoss!.fieldDb)
  })

  test('of no extent or of one value is refused by name', () => {
    const refused = (change: object) => {
      const outcome = finished(attemptedSteps(sweepSteps({ ...wanted, ...change }))).value
      return outcome.ok ? '' : outcome.message
    }
    expect(refused({ to: 0.1 })).toBe('end of the sweep is 0.1; must be above its start, 0.1')
    expect(refused({ points: 1 })).toBe('number of points is 1; must be 2 to 100')
    expect(refused({ points: 2.5 })).toBe('number of points is 2.5; must be a whole number')
  })

  const pointsOf = (values: readonly number[], loss: (value: number) => number) =>
    values.map((value) => ({
      value,
      message: '',
      numbers: { ...result.points.at(-1)!.numbers!, fibreLoss: { fieldDb: loss(value), gaussianDb: 0 } },
    }))

  test('looks between its points at the vertex of a parabola, exactly', () => {
    const points = pointsOf([0.1, 0.3, 0.5, 0.7], (value) => 1 + 3 * (value - 0.37) ** 2)
    expect(betweenPoints(points)).toBeCloseTo(0.37, 12)
    expect(bestOf(points)).toMatchObject({ value: 0.3, atEnd: false })
    expect(betweenPoints(points.slice(2))).toBeNull()
    expect(bestOf(points.slice(2))!.atEnd).toBe(true)
    expect(bestOf([{ value: 1, numbers: null, message: 'none' }])).toBeNull()
  })

  test('solves one value more where the least loss lies between two of its own, and has the loss that is solved there', () => {
    // The mode is cut off below 0.16 um, and the least loss lies at 0.29 um: the parabola between 0.18 and 0.54 um is 0.1 dB off there.
    const found = finished(sweepSteps({ ...wanted, from: 0.18, to: 0.9, points: 5 })).value
    expect(found.points).toHaveLength(6)
    expect(found.best!.atEnd).toBe(false)
    const values = found.points.map(({ value }) => value)
    expect(values).toEqual(values.toSorted((a, b) => a - b))
    const losses = found.points.map(({ numbers }) => numbers?.fibreLoss?.fieldDb ?? 99)
    expect(found.best!.lossDb).toBe(Math.min(...losses))
    const own = [0.18, 0.36, 0.54, 0.72, 0.9]
    const isOwn = (value: number) => own.some((each) => Math.abs(each - value) < 1e-9)
    expect(isOwn(found.best!.value)).toBe(false)
    expect(losses[values.indexOf(found.best!.value)]).toBe(found.best!.lossDb)
  })
})

describe('what can be swept', () => {
  test('is every size of every core and layer, and the wavelength', () => {
    const keys = sweepChoices(newCrossSection(0.4, 0.2), 1.55).map(({ key }) => key)
    expect(keys).toEqual([
      'width/core-1',
      'height/core-1',
      'sidewall/core-1',
      'thickness/layer-1',
      'thickness/layer-2',
      'wavelength',
    ])
  })

  test('a lower layer that grows lifts the cores on it', () => {
    const section = newCrossSection(0.4, 0.2)
    setVariable(section, { kind: 'thickness', layerId: 'layer-1' }, 5)
    expect(coreValue(section.cores[0]!.bottom, 'corePosition')).toBe(5)
    setVariable(section, { kind: 'thickness', layerId: 'layer-2' }, 2)
    expect(coreValue(section.cores[0]!.bottom, 'corePosition')).toBe(5)
  })

  test('all cores together keep their sizes relative to each other', () => {
    const section = newCrossSection(0.4, 0.2)
    section.cores.push({ ...structuredClone(section.cores[0]!), id: 'core-2' })
    setVariable(section, { kind: 'width', coreId: 'core-2' }, 0.8)
    setVariable(section, { kind: 'width', coreId: null }, 0.6)
    expect(section.cores.map((core) => coreValue(core.width, 'guideSize'))).toEqual([0.6, 1.2])
  })
})
