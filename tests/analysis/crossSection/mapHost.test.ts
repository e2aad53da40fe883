// An index map in a cross-section whose glass around the core is another.

import { describe, expect, test } from 'vitest'
import { mapHostWarnings } from '../../../src/analysis/crossSection/mapHost'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { IndexMapEntry } from '../../../src/model/schema/coreTables'
import { packNumbers } from '../../../src/numerics/compactNumbers'
import { setIndexMap } from '../../../src/panels/parts/crossSection/tableEdits'

const [WAVELENGTH_UM, N, STEP_UM, PEAK] = [1.55, 21, 0.5, 0.02] as const

/** A Gaussian step of 0.02 in glass of the given index. */
function gaussianMap(background: number): IndexMapEntry {
  const from = -((N - 1) / 2) * STEP_UM
  const steps = Float64Array.from({ length: N * N }, (_, i) => {
    const [x, y] = [from + STEP_UM * (i % N), from + STEP_UM * Math.floor(i / N)]
    return Math.fround(PEAK * Math.exp(-(x * x + y * y) / 4))
  })
  return {
    fileName: 'map.csv',
    notes: [],
    nx: N,
    ny: N,
    dxUm: STEP_UM,
    dyUm: STEP_UM,
    x0Um: from,
    y0Um: 0,
    background,
    steps: packNumbers(steps),
  }
}

function sectionWith(hostIndex: number, background: number) {
  const section = newCrossSection(1, 1)
  section.substrate.index = { kind: 'value', index: quantityOf(hostIndex, '1') }
  section.layers = []
  section.cover.index = { kind: 'value', index: quantityOf(hostIndex, '1') }
  const core = section.cores[0]!
  core.profile = 'index map'
  setIndexMap(core, gaussianMap(background))
  return { section, core }
}

describe('an index map whose surrounding glass is not that of the cross-section', () => {
  test('is warned of, with both indices and both steps', () => {
    const { section } = sectionWith(1.45, 1.46)
    const [warning = '', ...more] = mapHostWarnings(section, WAVELENGTH_UM)
    expect(more).toEqual([])
    expect(warning).toContain('1.46000 in map.csv but 1.45000 in the cross-section at 1550 nm')
    expect(warning).toContain('the index step is 0.03000 instead of 0.02000')
  })

  test.each([1.45, 1.4501])(
    'raises no warning where they agree to a hundredth of the step: %f',
    (background) => {
      expect(mapHostWarnings(sectionWith(1.45, background).section, WAVELENGTH_UM)).toEqual([])
    },
  )

  test('raises none where the step is entered over wavelength, or the peak index makes up for it', () => {
    const entered = sectionWith(1.45, 1.46)
    entered.core.stepOverWavelength = { wavelengthsUm: [WAVELENGTH_UM], steps: [PEAK] }
    expect(mapHostWarnings(entered.section, WAVELENGTH_UM)).toEqual([])
    const corrected = sectionWith(1.45, 1.46)
    corrected.core.index = { kind: 'value', index: quantityOf(1.45 + PEAK, '1') }
    expect(mapHostWarnings(corrected.section, WAVELENGTH_UM)).toEqual([])
  })

  test('a scaled peak in agreeing glass is a choice, and raises none', () => {
    const { section, core } = sectionWith(1.45, 1.45)
    core.index = { kind: 'value', index: quantityOf(1.45 + 2 * PEAK, '1') }
    expect(mapHostWarnings(section, WAVELENGTH_UM)).toEqual([])
  })
})
