import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../src/analysis/index'
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
    expect(sheet.openQuestions.join('\n')).toContain(
      'High-NA stub, bonded: Splice, typed figure of 0.10 dB is an estimate',
    )
  })

  test('answers for the percentile only with a run that it is given, and carries its seed and assumptions', () => {
    const demo = demoProject()
    const project = { ...demo, requirements: { ...demo.requirements, lossBasis: 'percentile' as const } }
    const verdictOf = (sheet: ReturnType<typeof buildSheet>) =>
      sheet.candidates[1]?.verdicts.find((each) => each.id === 'loss')
    expect(verdictOf(buildSheet(project, '2026-11-25'))?.status).toBe('not known')
    const run = runYield(project, 'high-na-bonded', { samples: 5000, seed: 77 })
    const runs = { yields: new Map([['high-na-bonded', run]]), arrays: new Map() }
    const sheet = buildSheet(project, '2026-11-25', runs)
    expect(verdictOf(sheet)?.status).toBe(run.p95Db <= 2 ? 'met' : 'not met')
    expect(verdictOf(sheet)?.reason).toContain(`${run.p95Db.toFixed(2)} dB`)
    expect(sheet.candidates[1]?.yield?.seed).toBe(77)
    expect(sheet.candidates[1]?.yield?.assumptions.join(' ')).toContain(
      'Actively aligned on power: offset x, offset y',
    )
    expect(sheet.candidates[0]?.yield).toBeNull()
  })

  test('says what each candidate was computed from, with unit, tolerance and source', () => {
    const [cleaved] = buildSheet(demoProject(), '2026-11-25').candidates
    expect(cleaved?.inputs.find((input) => input.label === 'gap')).toEqual({
      label: 'gap',
      value: '3 µm',
      tolerance: '± 1 µm, uniform',
      provenance: 'estimate',
    })
    expect(cleaved?.inputs.some((input) => input.label.startsWith('numerical aperture'))).toBe(true)
    expect(buildSheet(demoProject(), '2026-11-25').requirements[0]).toBe(
      'Wavelength 1653.7 nm, band 1650.7 nm to 1656.7 nm',
    )
  })
})
