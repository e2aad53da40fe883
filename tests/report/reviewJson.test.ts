// The JSON file of the review against the schema that docs/ publishes for its readers.

import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { evaluateCandidate } from '../../src/analysis/index'
import { reviewJson } from '../../src/report/formats/reviewJson'
import { type ReviewJson, reviewJsonSchema } from '../../src/report/formats/reviewSchema'
import { twoDesigns } from '../support/twoDesigns'
import { CHOSEN, demoRuns, sheetOf } from './support/sheets'

const FILE = 'docs/review-schema.json'
const published = JSON.parse(readFileSync(FILE, 'utf8')) as Record<string, unknown>
const project = twoDesigns()
const content = JSON.parse(reviewJson(sheetOf(project, { runs: demoRuns() }), project)) as ReviewJson

describe('the JSON file of the review', () => {
  test('meets the published schema, with and without runs', () => {
    const schema = z.fromJSONSchema(published)
    const faults = (value: unknown) => schema.safeParse(value).error?.issues ?? []
    expect(faults(content)).toEqual([])
    const bare = JSON.parse(reviewJson(sheetOf(project), project)) as ReviewJson
    expect(faults(bare)).toEqual([])
    expect(faults({ ...content, version: 1 })).not.toEqual([])
    expect(faults({ ...content, designs: [{ ...content.designs[0], nominal: 1 }] })).not.toEqual([])
  })

  test('the published schema is that of the code', () => {
    expect(published).toEqual(JSON.parse(JSON.stringify(z.toJSONSchema(reviewJsonSchema))))
  })

  test('carries entered numbers with their units, and both ends of the temperature range', () => {
    const evaluation = evaluateCandidate(project, CHOSEN)
    const design = content.designs.find(({ id }) => id === CHOSEN)
    expect(design?.nominal).toEqual({ value: evaluation.nominalDb, unit: 'dB' })
    expect(design?.lines.map(({ loss }) => loss.value)).toEqual(evaluation.lines.map(({ lossDb }) => lossDb))
    const reach = evaluation.temperature?.reachC
    expect([design?.temperature?.withinLimitFrom?.value, design?.temperature?.withinLimitTo?.value]).toEqual(
      reach ?? [undefined, undefined],
    )
    expect(design?.yield?.yield).toEqual({
      value: 100 * demoRuns().yields.get(CHOSEN)!.yield,
      unit: '%',
    })
  })

  test('has null for a number that is unknown or has no bound', () => {
    const sheet = sheetOf(project)
    const designs = sheet.candidates.map((each) => {
      const temperature = { ...each.evaluation.temperature!, reachC: [Number.NEGATIVE_INFINITY, 80] as const }
      return { ...each, evaluation: { ...each.evaluation, temperature } }
    })
    const written = JSON.parse(reviewJson({ ...sheet, candidates: designs }, project)) as ReviewJson
    expect(written.designs[0]?.temperature).toMatchObject({
      withinLimitFrom: null,
      withinLimitTo: { value: 80, unit: '°C' },
    })
    expect(written.alternatives[0]?.percentile).toBeNull()
    expect(written.alternatives[0]?.nominal?.value).toBeGreaterThan(0)
  })

  test('names the rows of a table by what they are about', () => {
    const evaluation = evaluateCandidate(project, CHOSEN)
    const [budget] = content.sections.find(({ id }) => id === 'budget')?.tables ?? []
    for (const { id, lossDb } of evaluation.lines)
      expect(budget?.rows.find((row) => row.id === id)?.cells[1], id).toBe(lossDb)
    expect(budget?.rows.find((row) => row.id === 'total-Nominal')?.cells[1]).toBe(evaluation.nominalDb)
  })
})
