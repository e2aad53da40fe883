// A core without walls on the review sheet.

import { describe, expect, test } from 'vitest'
import { newCrossSection, newGlassSection } from '../../src/model/parts/newCrossSection'
import { demoProject } from '../../src/model/project/demoProject'
import { quantityOf } from '../../src/model/quantity/quantity'
import { documentCellText } from '../../src/report/document/cells'
import { gradedCores } from '../../src/report/sections/light/gradedCores'

describe('cores without walls on the sheet', () => {
  const project = demoProject()
  const [candidate] = project.candidates
  const last = candidate?.chain.at(-1)
  const facet = project.facets.find(({ id }) => last?.kind === 'facet' && id === last.facetId)
  if (candidate === undefined || facet === undefined) throw new Error('no facet')
  const section = newCrossSection(8, 4)
  facet.crossSection = section

  test('a core with walls needs no line', () => {
    expect(gradedCores(project, candidate)).toEqual([])
  })

  test('profile, extents, peak and step are listed, and the index is plotted', () => {
    const [core] = section.cores
    if (core === undefined) throw new Error('no core')
    core.profile = 'user profiles'
    core.depthProfile = { distancesUm: [0, 4, 8], shares: [1, 0.4, 0] }
    core.bottom = quantityOf(2, 'um')
    core.stepOverWavelength = { wavelengthsUm: [1.0, 2.0], steps: [0.01, 0.01] }
    const [table, figure] = gradedCores(project, candidate)
    if (table?.kind !== 'table' || figure?.kind !== 'figure') throw new Error('no table or no figure')
    const [row] = table.rows
    const cells = (row && 'cells' in row ? row.cells : (row ?? [])) as Parameters<
      typeof documentCellText
    >[0][]
    expect(cells.map(documentCellText).slice(0, 4)).toEqual([
      'Tip',
      'width Gaussian, depth table of 3 points',
      '8.00',
      '4.00',
    ])
    expect(cells.map(documentCellText).slice(5)).toEqual(['0.01000', 'step entered at 1000, 2000 nm'])
    expect(figure.caption).toMatch(
      /^Index of Tip through its peak: 1\.4\d+, 0\.01000 above the surrounding glass\.$/,
    )
  })

  test('a diffused core at an end of an SSC chip is stated with the name of its end', () => {
    const withChip = structuredClone(project)
    const design = withChip.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'taper chip'))
    const chip = withChip.converters.find((each) => each.kind === 'taper chip')
    if (design === undefined || chip?.kind !== 'taper chip') throw new Error('no chip')
    for (const each of withChip.facets) each.crossSection = undefined
    chip.outputEnd = { crossSection: newGlassSection({ x: 3.4, y: 3.4 }, 1.6537) }
    const [table, figure] = gradedCores(withChip, design)
    if (table?.kind !== 'table') throw new Error('no table')
    const [row] = table.rows
    const cells = (row && 'cells' in row ? row.cells : (row ?? [])) as Parameters<
      typeof documentCellText
    >[0][]
    expect(cells.map(documentCellText).slice(0, 3)).toEqual([
      `${chip.name}, output end: Core`,
      'buried Gaussian',
      '3.40',
    ])
    expect(figure?.kind).toBe('figure')
  })
})
