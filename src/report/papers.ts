// The documents that go out with an order: purchase specification, process sheet and incoming inspection plan, as heads and sections.

import type { Evaluation } from '../analysis/results/evaluation'
import type { Candidate } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { REVIEW_DEFAULTS } from '../model/words/review'
import { projectChecksum } from './canonical'
import type { Section } from './document/blocks'
import { inspectionPlanOf } from './inspection/inspectionPlan'
import { inspectionSections } from './inspection/sections'
import { provisionalSubject } from './provisional'
import { processSections } from './purchase/processSheet'
import { type Specification, specificationOf, textOf } from './purchase/specification'
import { itemSection, specificationSummary } from './purchase/specificationSections'
import { PROGRAM_VERSION, type Printed, type SheetHead } from './sheet'

export const PAPER_KINDS = ['specification', 'process', 'inspection'] as const
export type PaperKind = (typeof PAPER_KINDS)[number]

export const PAPER_TITLES: Readonly<Record<PaperKind, string>> = {
  specification: 'Purchase specification',
  process: 'Process sheet',
  inspection: 'Incoming inspection plan',
}

/** What a paper's file is called, behind the name of its project. */
export const PAPER_FILE_NAMES: Readonly<Record<PaperKind, string>> = {
  specification: 'purchase-specification',
  process: 'process-sheet',
  inspection: 'inspection-plan',
}

/** Every part begins a page, so that its sheet can be sent separately; drawings are small, their lettering is not. */
const PAPER_STYLE = `
.review-sheet [data-section^="part-"] table:first-of-type th:first-child { inline-size: 30%; }
.review-sheet [data-section^="part-"] figure > svg { max-inline-size: 34rem; }
.review-sheet [data-section^="part-"] figure > svg text { font-size: 18px; }
@media print {
  .review-sheet { font-size: 8.6pt; }
  .review-sheet section ~ [data-section^="part-"] { break-before: page; }
  .review-sheet [data-section^="inspection-"], .review-sheet [data-section^="step-"] table { break-inside: avoid; }
  .review-sheet [data-section^="part-"] figure > svg { max-inline-size: 108mm; }
}
`

export interface PaperRequest {
  readonly project: Project
  readonly candidate: Candidate
  /** Of the same project. */
  readonly evaluation: Evaluation
  /** As the caller passes it, printed as given. */
  readonly date: string
  readonly revision?: string
  /** Only the parts of one supplier, by name; all where it is absent. */
  readonly supplier?: string
}

/** The suppliers that are stated for the parts of a design, each once. */
export function suppliersOf({ items }: Specification): readonly string[] {
  return [...new Set(items.map(({ own }) => textOf(own, 'supplier')))].filter((name) => name !== '').sort()
}

/** The specification with the parts of one supplier only; as it is where none is requested. */
export function requestedSpecification({
  project,
  candidate,
  evaluation,
  supplier,
}: PaperRequest): Specification {
  const whole = specificationOf(project, candidate, evaluation)
  return supplier === undefined
    ? whole
    : { ...whole, items: whole.items.filter(({ own }) => textOf(own, 'supplier') === supplier) }
}

function sectionsOf(kind: PaperKind, request: PaperRequest): readonly Section[] {
  const { project, candidate, evaluation, supplier } = request
  const specification = requestedSpecification(request)
  switch (kind) {
    case 'specification':
      return [
        // A supplier does not need to see what others deliver.
        ...(supplier === undefined ? [specificationSummary(specification, candidate)] : []),
        ...specification.items.map((item, i) => itemSection(project, candidate, evaluation, item, i + 1)),
      ]
    case 'process':
      return processSections(project, candidate, evaluation)
    case 'inspection':
      return inspectionSections(inspectionPlanOf(project, evaluation, specification))
  }
}

export function paperHead(
  kind: PaperKind,
  { project, candidate, evaluation, date, revision }: PaperRequest,
): SheetHead {
  return {
    title: project.name,
    subject: provisionalSubject(`${PAPER_TITLES[kind]}, ${candidate.name}`, [evaluation]),
    remark: '',
    revision: revision ?? 'current state',
    date,
    programVersion: PROGRAM_VERSION,
    checksum: projectChecksum(project),
    paper: project.review?.paper ?? REVIEW_DEFAULTS.paper,
  }
}

export function buildPaper(kind: PaperKind, request: PaperRequest): Printed {
  return { head: paperHead(kind, request), sections: sectionsOf(kind, request), style: PAPER_STYLE }
}
