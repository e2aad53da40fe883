// The demo is what everybody sees first: six families, one that meets everything, a facet that is what it says.

import { describe, expect, test } from 'vitest'
import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { facetModeSteps } from '../../src/analysis/crossSection/facetMode'
import { tryEvaluate } from '../../src/analysis/index'
import { rankDesigns } from '../../src/analysis/proposals/ranking'
import { DEMO_DESIGN_ID, demoProject, parseProject } from '../../src/model/index'
import { coreHalfWidth, coreValue } from '../../src/model/quantity/quantity'
import { finish } from '../../src/numerics/steps'

describe('the demo', () => {
  const project = parseProject(JSON.parse(JSON.stringify(demoProject())))

  test('opens on the design that ranks first and meets every requirement', () => {
    const comparison = compareCandidates(project, tryEvaluate)
    expect(comparison.columns.map(({ issues }) => issues)).toEqual(project.candidates.map(() => []))
    const [first] = rankDesigns(comparison, project.requirements.losses[0]!.basis)
    expect(first).toMatchObject({ candidateId: DEMO_DESIGN_ID, meetsAll: true })
  })

  test('has six families', () => {
    expect(project.candidates.map(({ id }) => id)).toEqual([
      'cleaved-dry',
      'high-na-bonded',
      'lensed-fibre',
      'relay',
      'ssc-chip',
      'on-chip-taper',
    ])
  })

  test('states the facet mode and index that its cross-section has, within the stated tolerance', () => {
    const facet = project.facets[0]!
    const mode = finish(
      facetModeSteps({
        section: facet.crossSection!,
        wavelengthUm: coreValue(project.requirements.wavelength, 'wavelength'),
        fibre: null,
        cells: { x: 60, y: 60 },
      }),
    )
    for (const [axis, stated] of [
      ['x', facet.mfdX],
      ['y', facet.mfdY],
    ] as const) {
      const off = Math.abs(mode.widths.gaussian.mfdUm[axis] - coreValue(stated, 'mfd'))
      expect(off + mode.mfdErrorEstimateUm[axis]).toBeLessThan(coreHalfWidth(stated, 'mfd'))
    }
    const { index } = facet
    if (index.kind !== 'value') throw new Error('the facet states no index')
    const offIndex = Math.abs(mode.effectiveIndex - coreValue(index.index, 'index'))
    expect(offIndex).toBeLessThan(coreHalfWidth(index.index, 'index'))
  })

  test('claims no data sheet: every number says that it is invented', () => {
    const text = JSON.stringify(project)
    expect(text).not.toContain('"data sheet"')
    expect(text.split('"provenance":').length).toBe(text.split('"note":"Invented for the demo."').length)
  })
})
