import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model'
import { type Quantity, quantityOf } from '../../src/model/quantity/quantity'
import { withUncertainty } from '../../src/numerics/numberText'
import { applyDiameters } from '../../src/panels/measurements/partDiameters'

const measured = (value: number, plusMinus: number): Quantity => ({
  ...quantityOf(value, 'um', 'measured'),
  uncertainty: { plusMinus, coverage: 2 },
})
const x = measured(3.41, 0.02)
const y = measured(2.79, 0.03)

describe('applying diameters', () => {
  test('into a facet changes the chosen directions only', () => {
    const project = demoProject()
    applyDiameters(project, { list: 'facets', id: 'facet-nitride' }, { x, y: null })
    const { mfdX, mfdY } = demoProject().facets[0] ?? {}
    expect(project.facets[0]).toMatchObject({ mfdX: { ...x, tolerance: mfdX?.tolerance }, mfdY })
  })

  test('never narrows the lot: the production tolerance stays, and the worst case does not fall by measuring', () => {
    const project = demoProject()
    const [facet] = project.facets
    const before = evaluateCandidate(project, 'high-na-bonded')
    const same = (quantity: Quantity | undefined) => measured(quantity?.value ?? 0, 0.0076)
    applyDiameters(
      project,
      { list: 'facets', id: 'facet-nitride' },
      { x: same(facet?.mfdX), y: same(facet?.mfdY) },
    )
    const after = evaluateCandidate(project, 'high-na-bonded')
    expect(after.nominalDb).toBeCloseTo(before.nominalDb, 12)
    expect(after.worstCorner.lossDb).toBeGreaterThan(before.worstCorner.lossDb)
    expect(after.rootSumSquare.lossDb).toBeGreaterThan(before.rootSumSquare.lossDb)
  })

  test('in another unit keeps the tolerance in size', () => {
    const project = demoProject()
    const [facet] = project.facets
    if (facet !== undefined) facet.mfdX = quantityOf(3400, 'nm', 'data sheet', 300)
    applyDiameters(project, { list: 'facets', id: 'facet-nitride' }, { x, y: null })
    expect(project.facets[0]?.mfdX.tolerance?.plusMinus).toBeCloseTo(0.3, 12)
  })

  test('into a fibre known by its core makes it known by its diameters', () => {
    const project = demoProject()
    applyDiameters(project, { list: 'fibres', id: 'fibre-standard' }, { x, y })
    expect(project.fibres[0]?.mode).toEqual({ kind: 'mfd', mfdX: x, mfdY: y })
  })

  test('one and the same diameter for both directions makes a fibre circular', () => {
    const project = demoProject()
    applyDiameters(project, { list: 'fibres', id: 'fibre-standard' }, { x, y: x })
    expect(project.fibres[0]?.mode).toEqual({ kind: 'mfd', mfdX: x })
  })

  test('nothing, or into a part that is gone, changes nothing', () => {
    const project = demoProject()
    applyDiameters(project, { list: 'fibres', id: 'fibre-standard' }, { x: null, y: null })
    applyDiameters(project, { list: 'facets', id: 'gone' }, { x, y })
    expect(project).toEqual(demoProject())
  })
})

describe('a value with its uncertainty', () => {
  test('shows as many decimals as two digits of the uncertainty have (JCGM 100, 7.2.6)', () => {
    expect(withUncertainty(3.19869, 0.014192)).toBe('3.199 ± 0.014')
    expect(withUncertainty(-0.66981, 0.5)).toBe('−0.67 ± 0.50')
    expect(withUncertainty(120.4, 12)).toBe('120 ± 12')
    expect(withUncertainty(1.5, null)).toBe('1.5')
  })
})
