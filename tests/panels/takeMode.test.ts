import { expect, test } from 'vitest'
import { facetModeSteps } from '../../src/analysis/crossSection/facetMode'
import { demoProject } from '../../src/model/index'
import { newCrossSection } from '../../src/model/parts/newCrossSection'
import type { FacetEntry } from '../../src/model/schema/parts'
import {
  DEFINITIONS,
  diameterBy,
  solvedQuantities,
  takeSweptValue,
} from '../../src/panels/parts/crossSection/takeMode'

function solved() {
  const steps = facetModeSteps({
    section: newCrossSection(0.7, 0.2),
    wavelengthUm: 1.6537,
    fibre: null,
    cells: { x: 48, y: 48 },
  })
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

test('an applied mode becomes computed diameters and index with their source', () => {
  const facet = demoProject().facets[0]!
  const mode = solved()
  const before = structuredClone(facet)
  Object.assign(facet, solvedQuantities(facet, mode, 'best-fit Gaussian', 'TE'))
  expect(facet.mfdX.value).toBeCloseTo(mode.widths.gaussian.mfdUm.x, 3)
  expect(facet.mfdY.provenance).toBe('computed')
  expect(facet.mfdY.tolerance).toEqual(before.mfdY.tolerance)
  expect(facet.mfdX.note).toBe('Solved cross-section, quasi-TE at 1653.7 nm, best-fit Gaussian.')
  expect(facet.index.kind === 'value' && facet.index.index.value).toBeCloseTo(mode.effectiveIndex, 3)
})

test('every definition gives its own pair of diameters', () => {
  const mode = solved()
  const widths = DEFINITIONS.map((definition) => diameterBy(mode, definition).x)
  expect(new Set(widths).size).toBe(DEFINITIONS.length)
})

test('a swept width goes into the cross-section and the facet’s tip width', () => {
  const { crossSection: _, tipWidth: __, ...plain } = demoProject().facets[0]!
  const facet: FacetEntry = plain
  takeSweptValue(facet, { kind: 'width', coreId: null }, 0.5)
  expect(facet.tipWidth).toBeUndefined()
  facet.crossSection = newCrossSection(0.4, 0.2)
  takeSweptValue(facet, { kind: 'height', coreId: 'core-1' }, 0.25)
  expect(facet.tipWidth).toBeUndefined()
  takeSweptValue(facet, { kind: 'width', coreId: 'core-1' }, 0.5)
  expect(facet.crossSection.cores[0]!.width.value).toBe(0.5)
  expect(facet.tipWidth!.value).toBe(0.5)
})
