// A document made before the fields of real joints are known says so in every format, and has no line to sign.

import { expect, test } from 'vitest'
import { tryEvaluate } from '../../src/analysis/index'
import type { Project } from '../../src/model/schema/project'
import { plainBlocks } from '../../src/report/document/blocks'
import { FORMATS } from '../../src/report/formats'
import { buildPaper, PAPER_KINDS } from '../../src/report/papers'
import { twoDesigns } from '../support/twoDesigns'
import { workbookRows } from './support/readBack'
import { CHOSEN, sheetOf } from './support/sheets'

const project = twoDesigns()

const evaluateWith = (awaitsFit: boolean) => (of: Project, id: string) => {
  const result = tryEvaluate(of, id)
  return result.ok ? { ...result, value: { ...result.value, awaitsFit } } : result
}
const sheets = {
  pending: sheetOf(project, { evaluate: evaluateWith(true) }),
  known: sheetOf(project),
}

const rendered = async (id: string, which: keyof typeof sheets): Promise<string> => {
  const content = await FORMATS.find((each) => each.id === id)?.render(sheets[which], project)
  if (typeof content === 'string') return content
  return JSON.stringify(await workbookRows(Buffer.from(content ?? [])))
}

test.each(FORMATS.map(({ id }) => id))(
  '%s marks RSS, worst case and the document, only while it waits',
  async (id) => {
    const [pending, known] = await Promise.all([rendered(id, 'pending'), rendered(id, 'known')])
    for (const words of [
      'RSS, provisional',
      'Worst case, provisional',
      'Provisional, not for signature: the real fields',
    ]) {
      expect(pending, words).toContain(words)
    }
    expect(known).not.toMatch(/provisional/i)
  },
)

test('there is nothing to sign, neither on the first page nor at the end', () => {
  const signs = (sheet: typeof sheets.known) =>
    sheet.sections.flatMap(({ blocks }) => plainBlocks(blocks)).filter(({ kind }) => kind === 'signatures')
      .length
  expect([signs(sheets.known), signs(sheets.pending)]).toEqual([1, 0])
  const late = sheetOf(
    { ...project, review: { ...project.review, left: ['summary'] } },
    { evaluate: evaluateWith(true) },
  )
  const signOff = late.sections.find(({ id }) => id === 'sign-off')
  expect(signOff?.blocks.map(({ kind }) => kind)).toEqual(['text'])
  expect(late.head.subject).toBe('Loss budget for design review: PROVISIONAL, not for signature')
})

test('so do the order papers', () => {
  const candidate = project.candidates.find(({ id }) => id === CHOSEN)!
  const result = evaluateWith(true)(project, CHOSEN)
  if (!result.ok) throw new Error('not evaluated')
  for (const kind of PAPER_KINDS) {
    const paper = buildPaper(kind, {
      project,
      candidate,
      evaluation: result.value,
      date: '2026-11-26',
    })
    expect(paper.head.subject).toContain(': PROVISIONAL, not for signature')
  }
})
