// A tolerance allocation as it is shown and applied: a factor of 2 is twice the width, and one of 0.5 half of it.

import { describe, expect, test } from 'vitest'
import type { ShareOut } from '../../src/analysis/yield/shareOut'
import type { Path } from '../../src/model/issue'
import { quantityOf } from '../../src/model/quantity/quantity'
import { quantityAt } from '../../src/model/quantity/quantityAt'
import { allocatedText, applyAllocation, otherTolerances } from '../../src/panels/yield/allocation'
import { matchedProject } from '../analysis/yield/cases'

const gapPath = (axis: string): Path => ['candidates', 0, 'chain', 1, axis]
const projectOf = () =>
  matchedProject(10.4, 1, {
    offsetX: quantityOf(0, 'um', 'estimate', 0.4),
    offsetY: quantityOf(0, 'um', 'estimate', 0.3),
    gap: quantityOf(5, 'um', 'estimate', 2),
    tiltX: quantityOf(0, 'deg', 'estimate', 0.5),
  })

const plan: ShareOut = {
  tolerances: [
    { path: gapPath('offsetX'), label: 'offset x', factor: 0.5 },
    { path: gapPath('gap'), label: 'gap', factor: 3 },
    { path: gapPath('offsetY'), label: 'offset y', factor: 1.019 },
    { path: gapPath('tiltX'), label: 'tilt x', factor: 0.979 },
  ],
  yieldBefore: 0.8,
  yieldAfter: 0.95,
  cost: 4,
  costInCommon: 5,
  reached: true,
  samples: 512,
}

describe('an allocation', () => {
  test('shows the present width times its factor, to three digits, and a dash where there is none', () => {
    const line = { path: gapPath('offsetX'), plusMinus: 0.4, unit: 'µm' }
    expect(allocatedText(plan, line)).toBe('0.2 µm')
    expect(allocatedText(plan, { ...line, path: gapPath('gap'), plusMinus: 2.222 })).toBe('6.67 µm')
    expect(allocatedText(plan, { ...line, path: gapPath('roll') })).toBe('–')
    expect(allocatedText(null, line)).toBe('–')
  })

  test('lists the tolerances that have no row of their own with their present and allocated width', () => {
    const listed = [{ path: gapPath('offsetX') }, { path: gapPath('offsetY') }]
    expect(otherTolerances(plan, projectOf(), listed).map(({ text }) => text)).toEqual([
      'gap: 2 µm now, 6 µm allocated',
      'tilt x: 0.5° now, 0.489° allocated',
    ])
    expect(otherTolerances(plan, projectOf(), plan.tolerances)).toEqual([])
  })

  test('is applied as factors of the present widths; changes of up to 2 % are left out', () => {
    const draft = projectOf()
    applyAllocation(draft, plan)
    const widths = ['offsetX', 'gap', 'offsetY', 'tiltX'].map(
      (axis) => quantityAt(draft, gapPath(axis))?.tolerance?.plusMinus,
    )
    expect(widths).toEqual([0.2, 6, 0.3, 0.4895])
    expect(quantityAt(draft, gapPath('gap'))?.value).toBe(5)
  })
})
