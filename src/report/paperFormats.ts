// The file formats of the order documents, each format loaded when it is requested.

import type { InspectionJson, SpecificationJson } from './formats/paperSchema'
import { inspectionPlanOf } from './inspection/inspectionPlan'
import { buildPaper, type PaperKind, type PaperRequest, paperHead, requestedSpecification } from './papers'

export interface PaperFormat {
  readonly id: string
  readonly label: string
  /** With the point. */
  readonly ending: string
  readonly mediaType: string
  readonly kinds: readonly PaperKind[]
  /** The same request gives the same file, byte for byte. */
  readonly render: (kind: PaperKind, request: PaperRequest) => Promise<string | Uint8Array>
}

const EVERY: readonly PaperKind[] = ['specification', 'process', 'inspection']
const WITH_NUMBERS: readonly PaperKind[] = ['specification', 'inspection']

/** A row a characteristic, for whoever filters and sorts; the process sheet by its sections. */
async function csv(kind: PaperKind, request: PaperRequest): Promise<string> {
  const { sheetCsv, tableText } = await import('./formats/csv')
  const { inspectionTable } = await import('./inspection/inspectionRows')
  const { specificationTable } = await import('./purchase/specificationRows')
  const specification = requestedSpecification(request)
  if (kind === 'process') return sheetCsv(buildPaper(kind, request))
  const { project, evaluation } = request
  const rows =
    kind === 'specification'
      ? specificationTable(specification)
      : inspectionTable(inspectionPlanOf(project, evaluation, specification))
  return `\ufeff${tableText(rows)}`
}

async function json(kind: PaperKind, request: PaperRequest): Promise<string> {
  const { inspectionData } = await import('./inspection/inspectionRows')
  const { specificationData } = await import('./purchase/specificationRows')
  const specification = requestedSpecification(request)
  const { title, revision, date, programVersion, checksum } = paperHead(kind, request)
  const { project, evaluation, candidate } = request
  const head = {
    version: 1,
    title,
    design: candidate.name,
    revision,
    date,
    programVersion,
    checksum,
  } as const
  const content: SpecificationJson | InspectionJson =
    kind === 'inspection'
      ? {
          format: 'modeseam-inspection-plan',
          ...head,
          ...inspectionData(inspectionPlanOf(project, evaluation, specification)),
        }
      : { format: 'modeseam-purchase-specification', ...head, ...specificationData(specification) }
  return `${JSON.stringify(content, null, 2)}\n`
}

export const PAPER_FORMATS: readonly PaperFormat[] = [
  {
    id: 'html',
    label: 'HTML, one file',
    ending: '.html',
    mediaType: 'text/html',
    kinds: EVERY,
    render: async (kind, request) => (await import('./formats/html')).sheetHtml(buildPaper(kind, request)),
  },
  {
    id: 'xlsx',
    label: 'Spreadsheet',
    ending: '.xlsx',
    mediaType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    kinds: EVERY,
    render: async (kind, request) =>
      (await import('./workbook/paperWorkbook')).paperWorkbook(buildPaper(kind, request)),
  },
  {
    id: 'csv',
    label: 'CSV',
    ending: '.csv',
    mediaType: 'text/csv',
    kinds: EVERY,
    render: csv,
  },
  {
    id: 'md',
    label: 'Markdown',
    ending: '.md',
    mediaType: 'text/markdown',
    kinds: EVERY,
    render: async (kind, request) =>
      (await import('./formats/markdown')).sheetMarkdown(buildPaper(kind, request)),
  },
  {
    id: 'json',
    label: 'JSON',
    ending: '.json',
    mediaType: 'application/json',
    kinds: WITH_NUMBERS,
    render: json,
  },
]
