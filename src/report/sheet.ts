// The review sheet as plain data: a head and a list of sections, which every screen, printer and file format renders.

import { tryEvaluate } from '../analysis/index'
import type { Project } from '../model/schema/project'
import { type Paper, REVIEW_DEFAULTS } from '../model/words/review'
import { finish } from '../numerics/steps'
import {
  type Choice,
  chosenCandidate,
  type Evaluate,
  NO_RUNS,
  type RefusedCandidate,
  type SheetCandidate,
  type SheetRuns,
  sheetCandidates,
} from './candidates'
import { checksumSteps } from './canonical'
import type { Section } from './document/blocks'
import type { Evidence } from './evidence'
import { provisionalSubject } from './provisional'
import { SECTIONS } from './sections'
import { cautionsSection } from './sections/cautions'
import { type Summary, summaryOf } from './summary/summary'

export interface EarlierState {
  readonly name: string
  readonly project: Project
}

/** All that a sheet is made from; nothing in it reads a clock. */
export interface SheetRequest {
  readonly project: Project
  /** As the caller passes it, printed as given. */
  readonly date: string
  /** Name of the state that is printed, such as that of a kept revision. */
  readonly revision?: string
  readonly programVersion?: string
  readonly runs?: SheetRuns
  /** Evaluated measurements. */
  readonly evidence?: readonly Evidence[]
  /** An earlier state to compare with. */
  readonly before?: EarlierState
  /** The core's evaluation, or one that remembers; it includes the modes of cross-sections that are solved. */
  readonly evaluate?: Evaluate
  /** A project with the modes of its cross-sections that are solved, for what is computed besides. */
  readonly withModes?: (project: Project) => Project
}

/** What a section may read. */
export interface SheetContext {
  readonly project: Project
  readonly date: string
  readonly choice: Choice | null
  readonly candidates: readonly SheetCandidate[]
  readonly refused: readonly RefusedCandidate[]
  readonly evidence: readonly Evidence[]
  readonly runs: SheetRuns
  readonly before: EarlierState | null
  readonly evaluate: Evaluate
  readonly withModes: (project: Project) => Project
  /** Null where no design can be evaluated. */
  readonly summary: Summary | null
}

export interface SheetHead {
  readonly title: string
  /** What kind of document this is, under its title. */
  readonly subject: string
  readonly remark: string
  readonly revision: string
  readonly date: string
  readonly programVersion: string
  /** SHA-256 of the canonical design. */
  readonly checksum: string
  readonly paper: Paper
}

/** What every format can print. */
export interface Printed {
  readonly head: SheetHead
  /** Rules that only this document has, for its page breaks. */
  readonly style?: string
  readonly sections: readonly Section[]
}

export interface Sheet extends Printed {
  readonly chosen: Choice | null
  /** What the first page says, as plain data; null where no design can be evaluated. */
  readonly summary: Summary | null
  readonly candidates: readonly SheetCandidate[]
  readonly refused: readonly RefusedCandidate[]
}

export const PROGRAM_VERSION = '0.1.0'

/** The sheet with every section that has something to say and is not left out; the cautions always have. */
export function buildSheet(request: SheetRequest): Sheet {
  return finish(sheetSteps(request))
}

/** The same with a pause wherever a large project takes long. */
export function* sheetSteps(request: SheetRequest): Generator<void, Sheet, void> {
  const { project, date } = request
  const runs = request.runs ?? NO_RUNS
  const evaluate = request.evaluate ?? tryEvaluate
  const seen = yield* sheetCandidates(project, evaluate, runs)
  const choice = chosenCandidate(project, seen)
  const ground = {
    project,
    date,
    choice,
    ...seen,
    evidence: request.evidence ?? [],
    runs,
    before: request.before ?? null,
    evaluate,
    withModes: request.withModes ?? ((own: Project) => own),
  }
  const context: SheetContext = { ...ground, summary: summaryOf(ground) }
  const { review } = project
  const left = new Set((review?.left ?? []).filter((id) => id !== cautionsSection.id))
  const sections: Section[] = []
  for (const { id, title, build } of SECTIONS) {
    if (left.has(id)) continue
    const blocks = build(context)
    const remark = review?.remarks?.[id] ?? ''
    if (blocks.length > 0 || remark !== '') sections.push({ id, title, blocks, remark })
    yield
  }
  return {
    head: {
      title: project.name,
      subject: provisionalSubject(
        'Loss budget for design review',
        seen.candidates.map(({ evaluation }) => evaluation),
      ),
      remark: project.remark ?? '',
      revision: request.revision ?? 'current state',
      date,
      programVersion: request.programVersion ?? PROGRAM_VERSION,
      checksum: yield* checksumSteps(project),
      paper: review?.paper ?? REVIEW_DEFAULTS.paper,
    },
    sections,
    chosen: choice,
    summary: context.summary,
    ...seen,
  }
}
