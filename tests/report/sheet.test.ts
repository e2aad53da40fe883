import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { buildSheet } from '../../src/report/sheet'

describe('the review sheet', () => {
  test('carries the numbers of the core, and its lines add up to its total', () => {
    const project = demoProject()
    const sheet = buildSheet(project, '2026-11-25')
    expect(sheet.candidates.map((each) => each.id)).toEqual(project.candidates.map((each) => each.id))
    for (const each of sheet.candidates) {
      const { nominalDb } = evaluateCandidate(project, each.id)
      expect(each.evaluation.nominalDb).toBe(nominalDb)
      expect(each.lines.reduce((sum, line) => sum + line.lossDb, 0)).toBeCloseTo(nominalDb, 9)
      expect(each.lines.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 9)
    }
  })

  test('lists a candidate that cannot be computed with the reason instead of leaving it out', () => {
    const project = demoProject()
    const first = project.candidates[0]!
    const broken = { ...project, candidates: [{ ...first, chain: first.chain.slice(0, 1) }] }
    const sheet = buildSheet(broken, '2026-11-25')
    expect(sheet.candidates).toEqual([])
    expect(sheet.refused[0]?.issues[0]?.message).toContain('needs at least a fibre, a join and a facet')
  })

  test('asks about every loss that is only an estimate', () => {
    const sheet = buildSheet(demoProject(), '2026-11-25')
    expect(sheet.openQuestions.join('\n')).toContain('High-NA stub, bonded: Splice of 0.10 dB is an estimate')
  })
})
