import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { leastGapUm } from '../../../src/analysis/budget/rimContact'
import { evaluateCandidate } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'

const notesWith = (change: Partial<GapElement>) => {
  const project = produce(demoProject(), (draft) => {
    const gap = draft.candidates[0]?.chain.find((each) => each.kind === 'gap')
    if (gap !== undefined) Object.assign(gap, change)
  })
  return evaluateCandidate(project, 'cleaved-dry')
    .validity.map((note) => note.message)
    .filter((message) => message.includes('touches'))
}

describe('faces that are not parallel', () => {
  test('touch at the rim: 125 um of glass at 8 degrees needs 8.78 um in the middle', () => {
    // Plane geometry: 62.5 um tan 8 deg.
    expect(leastGapUm(125, (8 * Math.PI) / 180, 0)).toBeCloseTo(8.7838, 4)
    expect(leastGapUm(125, 0.003, -0.004)).toBeCloseTo(62.5 * 0.005, 4)
  })

  test('are named with the least gap where the gap is shorter, and not where it is long enough', () => {
    const angled = { nearFaceAngle: quantityOf(8, 'deg'), pointing: 'parallel' as const }
    expect(notesWith({ ...angled, gap: quantityOf(3, 'um') })).toHaveLength(1)
    expect(notesWith({ ...angled, gap: quantityOf(3, 'um') })[0]).toContain('8.78 µm')
    expect(notesWith({ ...angled, gap: quantityOf(9, 'um') })).toEqual([])
  })

  test('are not suspected where both are angled alike and the fibre is not tilted, but a tilted fibre is', () => {
    expect(notesWith({})).toEqual([])
    const both = { nearFaceAngle: quantityOf(8, 'deg'), farFaceAngle: quantityOf(8, 'deg') }
    expect(notesWith({ ...both, pointing: 'parallel', gap: quantityOf(0, 'um') })).toEqual([])
    expect(notesWith({ tiltY: quantityOf(5, 'deg'), gap: quantityOf(3, 'um') })[0]).toContain('5.47 µm')
  })
})
