import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { CATALOGUE } from '../../../src/model/catalogue/catalogue'
import { demoProject, parseProject } from '../../../src/model/index'
import { addParts } from '../../../src/model/parts/addParts'
import { copyParts, deleteParts, partOf, setTolerances } from '../../../src/model/parts/partEdits'
import { listedParts, PART_KINDS, type PartRef } from '../../../src/model/parts/partKinds'
import { partQuantities } from '../../../src/model/parts/partQuantities'
import { suitsWavelength } from '../../../src/model/parts/partWavelengths'
import { emptyProject } from '../../../src/model/project/emptyProject'

const stocked = () => {
  const project = emptyProject()
  addParts(project, CATALOGUE)
  return project
}
const fibres = (...ids: string[]): PartRef[] => ids.map((id) => ({ list: 'fibres', id }))

describe('several parts at once', () => {
  test('are listed by kind, converters as what they are', () => {
    const kinds = listedParts(stocked()).map(({ kind }) => kind)
    expect([...new Set(kinds)]).toEqual([...PART_KINDS])
    expect(kinds.length).toBe(Object.values(CATALOGUE).flat().length + emptyProject().media.length)
  })

  test('are copied with ids and names of their own, on a draft', () => {
    const before = demoProject()
    let copies: readonly PartRef[] = []
    const after = produce(before, (draft) => {
      copies = copyParts(draft, [...fibres('fibre-standard', 'fibre-high-na'), { list: 'media', id: 'gel' }])
    })
    expect(copies).toHaveLength(3)
    expect(copies.map((ref) => partOf(after, ref)?.name)).toEqual([
      'Standard single-mode fibre (copy)',
      'High-NA bridge fibre (copy)',
      'Index gel (copy)',
    ])
    expect(parseProject(JSON.parse(JSON.stringify(after)))).toEqual(after)
    expect(before).toEqual(demoProject())
  })

  test('are deleted only where no design uses them', () => {
    const project = demoProject()
    const [copy] = copyParts(project, fibres('fibre-standard'))
    expect(deleteParts(project, [...fibres('fibre-standard'), copy!])).toBe(1)
    expect(project.fibres.map(({ id }) => id)).toEqual(demoProject().fibres.map(({ id }) => id))
  })

  test('get one tolerance in the unit of the number, or in per cent of each', () => {
    const project = stocked()
    const refs = listedParts(project)
    const count = project.fibres.length
    expect(
      setTolerances(project, refs, {
        field: 'claddingDiameter',
        plusMinus: 0.5,
        unit: 'um',
        distribution: 'normal',
      }),
    ).toBe(count)
    expect(project.fibres[0]?.claddingDiameter.tolerance).toEqual({ plusMinus: 0.5, distribution: 'normal' })
    setTolerances(project, fibres('fibre-g652d-1310'), {
      field: 'mfdX',
      plusMinus: 5,
      unit: 'per cent',
      distribution: 'uniform',
    })
    const { mode } = project.fibres[0]!
    expect(mode.kind === 'mfd' && mode.mfdX.tolerance?.plusMinus).toBeCloseTo(0.46, 9)
    expect(
      setTolerances(project, refs, { field: 'mfdX', plusMinus: 1, unit: 'mm', distribution: 'normal' }),
    ).toBe(0)
  })

  test('lose a tolerance that is set to zero', () => {
    const project = stocked()
    setTolerances(project, listedParts(project), {
      field: 'claddingDiameter',
      plusMinus: 0,
      unit: 'um',
      distribution: 'normal',
    })
    expect(project.fibres.every((fibre) => fibre.claddingDiameter.tolerance === undefined)).toBe(true)
  })

  test('have the numbers of their own, without those of a cross-section', () => {
    const facet = stocked().facets[0]!
    const labels = partQuantities({ ...facet, tm: { mfdX: facet.mfdX, mfdY: facet.mfdY } }).map(
      ({ label }) => label,
    )
    expect(labels).toContain('MFD x')
    expect(labels).toContain('TM MFD x')
    expect(labels).toContain('Taper loss')
    expect(new Set(labels).size).toBe(labels.length)
  })
})

describe('the wavelength of a part', () => {
  const named = (name: string) => listedParts(stocked()).find(({ part }) => part.name === name)!.part

  test('is what its name states, within a tenth', () => {
    expect(suitsWavelength(named('ITU-T G.652.D class, 1310 nm'), 1.31)).toBe(true)
    expect(suitsWavelength(named('ITU-T G.652.D class, 1310 nm'), 1.55)).toBe(false)
    expect(suitsWavelength(named('ITU-T G.654.E class, 1550 nm'), 1.6537)).toBe(true)
  })

  test('is any where nothing is stated', () => {
    expect(suitsWavelength(named('Silicon inverse taper, buried'), 0.85)).toBe(true)
  })

  test('follows from a core: one mode, and not too weakly guided', () => {
    const [standard] = demoProject().fibres
    // 8.2 µm and NA 0.125: V = 2.4048 at 1339 nm.
    expect(suitsWavelength(standard!, 1.3)).toBe(false)
    expect(suitsWavelength(standard!, 1.35)).toBe(true)
    expect(suitsWavelength(standard!, 3.5)).toBe(false)
  })
})
