import { describe, expect, test } from 'vitest'
import { demoProject } from '../../src/model'
import { quantityOf } from '../../src/model/quantity/quantity'
import { applyDiameters } from '../../src/panels/measurements/partDiameters'
import { withUncertainty } from '../../src/ui/text/rounded'

const x = quantityOf(3.41, 'um', 'measured', 0.02)
const y = quantityOf(2.79, 'um', 'measured', 0.03)

describe('applying diameters', () => {
  test('into a facet changes the chosen directions only', () => {
    const project = demoProject()
    applyDiameters(project, { list: 'facets', id: 'facet-nitride' }, { x, y: null })
    expect(project.facets[0]).toMatchObject({ mfdX: x, mfdY: demoProject().facets[0]?.mfdY })
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
