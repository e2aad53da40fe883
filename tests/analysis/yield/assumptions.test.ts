// What a run says about quantities that its samples would take beyond their physical limits.

import { describe, expect, test } from 'vitest'
import { sampledRange } from '../../../src/analysis/results/sampledRange'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { assumptionsOf } from '../../../src/analysis/yield/assumptions'
import { quantityOf, type Tolerance } from '../../../src/model/quantity/quantity'
import type { Spread } from '../../../src/model/quantity/spread'
import type { GapElement } from '../../../src/model/schema/candidate'
import { matchedProject, normal } from './cases'

function stoppedOf(change: Partial<GapElement>, taper: Tolerance | number = 0): readonly string[] {
  const project = matchedProject(6, 2, change)
  for (const facet of project.facets) facet.taperLoss = quantityOf(0.05, 'dB', 'estimate', taper)
  const result = assemblyOf(project, 'matched')
  if (!result.ok) throw new Error('no assembly')
  return assumptionsOf(result.value).filter((each) => each.startsWith('Samples of'))
}

describe('samples that are held at a limit', () => {
  test('are said where one in ten thousand would cross it: 3.719 standard deviations', () => {
    // Table of the normal distribution: 1e-4 lies beyond 3.719.
    expect(stoppedOf({}, normal(0.05 / 3.71))).toEqual([
      'Samples of taper loss of Facet beyond 0 are set to that limit.',
    ])
    expect(stoppedOf({}, normal(0.05 / 3.73))).toEqual([])
    expect(stoppedOf({}, 0.05)).toEqual([])
    expect(stoppedOf({}, 0)).toEqual([])
  })

  test('are said at the upper limit too: an offset of 1000 µm', () => {
    const at = (sigmaUm: number) => stoppedOf({ offsetX: quantityOf(999, 'um', 'estimate', normal(sigmaUm)) })
    expect(at(1 / 3.71)).toEqual(['Samples of offset x beyond 1000 are set to that limit.'])
    expect(at(1 / 3.73)).toEqual([])
  })
})

describe('the range of samples', () => {
  const of = (nominal: number, spread: Partial<Spread>, widening = 1) =>
    sampledRange(
      {
        ...{ path: [], label: '', rule: 'offset', nominal, unit: 'um' },
        spread: { distribution: 'normal', halfWidth: 1, coverage: 2, ...spread } as Spread,
      },
      widening,
    )

  test('is 6.5 standard deviations of a normal one, the ends of another, and as much wider as is asked', () => {
    expect(of(3, {})).toEqual([-0.25, 6.25])
    expect(of(3, { coverage: 1 })).toEqual([-3.5, 9.5])
    expect(of(3, { distribution: 'uniform' })).toEqual([2, 4])
    expect(of(3, { distribution: 'uniform' }, 3)).toEqual([0, 6])
    expect(of(3, {}, 2)).toEqual([-3.5, 9.5])
  })
})
