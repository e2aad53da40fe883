// What a search starts from: the loss of the design less that of the joint that is searched, whatever the joint is modelled by.

import { describe, expect, test } from 'vitest'
import { searchSubject } from '../../../src/analysis/firstLight/searchSubject'
import { evaluateCandidate } from '../../../src/analysis/index'
import type { Evaluation, JointView } from '../../../src/analysis/results/evaluation'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { jointLossDb } from '../../../src/optics/index'
import { familiesProject, relayElement } from '../support/families'
import { matchedProject } from '../yield/cases'

const um = (value: number) => quantityOf(value, 'um')

function matched(): readonly [Evaluation, JointView] {
  const project = matchedProject(6, 2, { offsetX: um(1), gap: um(4) })
  project.candidates[0]!.userLines.push({
    id: 'margin',
    label: 'Margin',
    kind: 'user line',
    loss: quantityOf(1.25, 'dB'),
  })
  const evaluation = evaluateCandidate(project, 'matched')
  return [evaluation, evaluation.joints[0]!]
}

describe('a joint of Gaussians', () => {
  const [evaluation, view] = matched()

  test('leaves the other losses, without drift over service', () => {
    const found = searchSubject(evaluation, view)
    expect(jointLossDb(view.joint)).toBeGreaterThan(0.4)
    // Equal indices on both sides: no reflection, and the margin is all that is left.
    expect(found).toEqual({
      joint: view.joint,
      leastGapUm: 0,
      otherLossDb: expect.closeTo(1.25, 9),
      fields: null,
    })
    const drift = { ...evaluation.lines[0]!, kind: 'drift', lossDb: 0.7 } as const
    const later = {
      ...evaluation,
      nominalDb: evaluation.nominalDb + 0.7,
      lines: [...evaluation.lines, drift],
    }
    expect(searchSubject(later, view).otherLossDb).toBeCloseTo(1.25, 9)
  })

  test('comes no nearer than contact', () => {
    const touching = (gapUm: number) => {
      const contact = { ...{ xUm: 0, yUm: 0, body: '', obstacle: '' }, gapUm } as NonNullable<
        JointView['contact']
      >
      return searchSubject(evaluation, { ...view, contact }).leastGapUm
    }
    expect(touching(15)).toBe(15)
    expect(touching(-3)).toBe(0)
  })

  test('of real fields loses what these lose, unless they are refused', () => {
    const withFields = (loss: object) =>
      searchSubject(evaluation, { ...view, field: { spec: {}, loss } } as unknown as JointView)
    const found = withFields({ fieldDb: evaluation.nominalDb - 0.4 })
    expect(found.otherLossDb).toBeCloseTo(0.4, 9)
    expect(found.fields).toEqual({ spec: {}, relay: null })
    expect(withFields({ refusal: 'too wide' })).toMatchObject({
      otherLossDb: expect.closeTo(1.25, 9),
      fields: null,
    })
  })
})

describe('a relay', () => {
  const relayOf = (lens1Id: string) => {
    const element = relayElement({
      device: undefined,
      frontGap: um(lens1Id === 'lens-1' ? 1000 : 880),
      stretch: um(2000),
      lens1Id,
    })
    const project: Project = JSON.parse(
      JSON.stringify(familiesProject(element), (key, value) => (key === 'tolerance' ? undefined : value)),
    )
    const evaluation = evaluateCandidate(project, 'relay')
    const view = evaluation.joints[0]!
    return { evaluation, view, found: searchSubject(evaluation, view) }
  }
  const lossOf = ({ lines }: Evaluation, kinds: readonly string[]) =>
    lines.filter(({ kind }) => kinds.includes(kind)).reduce((sum, { lossDb }) => sum + lossDb, 0)
  /** All that is no coupling: faces, apertures, the taper. */
  const OTHERS = ['fresnel', 'clipping', 'taper']

  test('of thin lenses is searched by its image', () => {
    const { evaluation, found } = relayOf('lens-1')
    expect(found.fields).toBeNull()
    expect(found.otherLossDb).toBeCloseTo(lossOf(evaluation, OTHERS), 6)
  })

  test('of a real lens by its rays: the aberration belongs to the joint', () => {
    const { evaluation, found } = relayOf('plano-1')
    expect(found.fields?.relay?.nominalDb).toBeCloseTo(lossOf(evaluation, ['aberration']), 6)
    expect(found.otherLossDb).toBeCloseTo(lossOf(evaluation, OTHERS), 6)
  })
})
