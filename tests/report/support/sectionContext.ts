// What a section reads, for tests of single sections: two evaluated designs, of which a test states what matters to it.

import { tryEvaluate } from '../../../src/analysis/index'
import type { Evaluation } from '../../../src/analysis/results/evaluation'
import type { Project } from '../../../src/model/schema/project'
import { NO_RUNS, type SheetCandidate } from '../../../src/report/candidates'
import { type Block, plainBlocks, type TableBlock, type TableRow } from '../../../src/report/document/blocks'
import { documentCellText } from '../../../src/report/document/cells'
import type { SheetContext } from '../../../src/report/sheet'
import { summaryOf } from '../../../src/report/summary/summary'
import { twoDesigns } from '../../support/twoDesigns'
import { CHOSEN, DATE, sheetOf } from './sheets'

const demo = twoDesigns()
const evaluated = sheetOf(demo).candidates.find(({ id }) => id === CHOSEN)

/** The bonded stub of the demo, without verdicts and runs. */
export function plainCandidate(more: Partial<SheetCandidate> = {}): SheetCandidate {
  if (evaluated === undefined) throw new Error('no design')
  return { ...evaluated, verdicts: [], yield: null, array: null, ...more }
}

/** The same with another evaluation. */
export const evaluatedAs = (more: Partial<Evaluation>): SheetCandidate =>
  plainCandidate({ evaluation: { ...plainCandidate().evaluation, ...more } })

/** The first candidate is the proposed one, unless `more` says otherwise. */
export function contextOf(
  candidates: readonly SheetCandidate[],
  more: Partial<SheetContext> = {},
  project: Project = demo,
): SheetContext {
  const [candidate] = candidates
  const ground = {
    project,
    date: DATE,
    choice: candidate === undefined ? null : { candidate, byEngineer: false },
    candidates,
    refused: [],
    evidence: [],
    runs: NO_RUNS,
    before: null,
    evaluate: tryEvaluate,
    withModes: (own: Project) => own,
    ...more,
  }
  return { ...ground, summary: summaryOf(ground), ...more }
}

export const tablesIn = (blocks: readonly Block[]): readonly TableBlock[] =>
  plainBlocks(blocks).filter((block): block is TableBlock => block.kind === 'table')

/** Texts and items of lists, one after the other. */
export const wordsIn = (blocks: readonly Block[]): readonly string[] =>
  plainBlocks(blocks).flatMap((block) =>
    block.kind === 'text' || block.kind === 'title' ? [block.text] : block.kind === 'list' ? block.items : [],
  )

export const cellsOf = ({ cells }: TableRow): readonly string[] => cells.map(documentCellText)

/** The rows of a table as they are read. */
export const readRows = (table: TableBlock | undefined): readonly (readonly string[])[] =>
  (table?.rows ?? []).map(cellsOf)
