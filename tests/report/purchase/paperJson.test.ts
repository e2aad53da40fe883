// The JSON files of the order documents against the schemas that docs/ publishes for their readers.

import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { evaluateCandidate } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { inspectionSchema, specificationSchema } from '../../../src/report/formats/paperSchema'
import { PAPER_FORMATS } from '../../../src/report/paperFormats'
import type { PaperKind } from '../../../src/report/papers'
import { DATE } from '../support/sheets'

const PAPERS = [
  ['specification', 'docs/purchase-specification-schema.json', specificationSchema],
  ['inspection', 'docs/inspection-plan-schema.json', inspectionSchema],
] as const

async function contentOf(kind: PaperKind, purchase = demoProject().purchase): Promise<unknown> {
  const project = { ...demoProject(), purchase }
  const candidate = project.candidates.find(({ id }) => id === 'ssc-chip')
  const format = PAPER_FORMATS.find(({ id }) => id === 'json')
  if (candidate === undefined || format === undefined) throw new Error('no such design or format')
  const evaluation = evaluateCandidate(project, candidate.id)
  return JSON.parse(String(await format.render(kind, { project, candidate, evaluation, date: DATE })))
}

describe.each(PAPERS)('the JSON file of the %s', (kind, file, schema) => {
  const published = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>
  const faults = (value: unknown) => z.fromJSONSchema(published).safeParse(value).error?.issues ?? []

  test('meets the published schema, with and without a planned build', async () => {
    const content = await contentOf(kind)
    expect(faults(content)).toEqual([])
    expect(faults(await contentOf(kind, {}))).toEqual([])
    const { checksum: _, ...unsigned } = content as Record<string, unknown>
    for (const wrong of [unsigned, { ...unsigned, checksum: 'none' }, { ...(content as object), version: 2 }])
      expect(faults(wrong)).not.toEqual([])
  })

  test('the published schema is that of the code', () => {
    expect(published).toEqual(JSON.parse(JSON.stringify(z.toJSONSchema(schema))))
  })
})
