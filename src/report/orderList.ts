// What a candidate needs to be bought or made, as plain data: lines for the order, questions for the suppliers.

import { elementReferences } from '../model/project/references'
import type { Quantity } from '../model/quantity/quantity'
import { fieldWords, toleranceText, valueText } from '../model/quantity/quantityWords'
import type { Candidate, GapElement, RelayElement } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { byId } from '../model/words/byId'
import { type OrderLine, orderLines } from './orderLines'
import { pointingsOf } from './pointings'

interface OrderList {
  readonly candidateId: string
  readonly name: string
  readonly lines: readonly OrderLine[]
  /** What the mode-field diameters of the lines mean. */
  readonly basis: string
  /** For each part, every number of it that is only an estimate. */
  readonly questions: readonly string[]
}

function isQuantity(value: object): value is Quantity {
  return 'value' in value && 'unit' in value && 'provenance' in value
}

/** The position of a core is a single letter in the file. */
const CORE_FIELDS: Readonly<Record<string, string>> = { x: 'centre x', bottom: 'bottom edge' }

/** An unconfirmed number, and the part it belongs to. */
interface Estimate {
  readonly part: string
  readonly words: string
}

const nameOf = (entry: object) => ('name' in entry && typeof entry.name === 'string' ? entry.name : null)

/** A spot that is round has one diameter. */
const partWords = (field: string, entry: object): string =>
  field === 'spotX' && !('spotY' in entry) ? 'spot' : fieldWords(field)

/** Every estimate in an entry, however deep; `owner` is the core or layer that it is a number of. */
function estimatesOf(part: string, entry: object, owner: string | null = null): readonly Estimate[] {
  return Object.entries(entry).flatMap(([field, value]): readonly Estimate[] => {
    if (typeof value !== 'object' || value === null) return []
    if (!isQuantity(value))
      return estimatesOf(field === 'tm' ? `${part}, TM mode` : part, value, nameOf(value) ?? owner)
    if (value.provenance !== 'estimate') return []
    const label =
      owner === null
        ? partWords(field, entry)
        : `${CORE_FIELDS[field] ?? fieldWords(field)} of ${owner}${field === 'bottom' ? ' above the substrate' : ''}`
    const words = `${label} ${valueText(value)} ${toleranceText(value)}`.trim()
    return [{ part, words }]
  })
}

/** End faces are ordered too. */
function faceEstimates(element: GapElement | RelayElement): readonly Estimate[] {
  const { nearFaceAngle, farFaceAngle } = element
  return estimatesOf('End faces', { nearFaceAngle, farFaceAngle })
}

/** One question for each part, with all its estimates. */
function questionsAbout(estimates: readonly Estimate[]): readonly string[] {
  const parts = [...new Set(estimates.map(({ part }) => part))]
  return parts.map((part) => {
    const own = [...new Set(estimates.filter((each) => each.part === part).map(({ words }) => words))]
    const [first] = own
    return own.length === 1
      ? `${part}: ${first} is an estimate; please confirm value and tolerance.`
      : `${part}: please confirm value and tolerance of these estimates: ${own.join('; ')}.`
  })
}

function openQuestions(project: Project, candidate: Candidate): readonly string[] {
  const estimates = candidate.chain.flatMap((element) => [
    ...elementReferences(element).flatMap(({ list, partId }) =>
      project[list].filter((part) => part.id === partId).flatMap((part) => estimatesOf(part.name, part)),
    ),
    ...(element.kind === 'splice' && element.basis === 'typed'
      ? estimatesOf('Fusion splice', { loss: element.loss })
      : []),
    ...(element.kind === 'stub' ? estimatesOf('Stub', { length: element.length }) : []),
    ...(element.kind === 'gap' || element.kind === 'relay' ? faceEstimates(element) : []),
    ...(element.kind === 'relay' && element.device !== undefined
      ? estimatesOf(element.device.name, element.device)
      : []),
  ])
  const block = candidate.array === undefined ? [] : estimatesOf('Fibre array', candidate.array)
  return questionsAbout([...estimates, ...block])
}

/** The order list of one candidate, or null where the project has no such. */
export function orderList(project: Project, candidateId: string): OrderList | null {
  const candidate = byId(project.candidates, candidateId)
  if (candidate === undefined) return null
  const pointings = pointingsOf(project, candidateId)
  const lines = candidate.chain.flatMap((_, at) => orderLines({ project, candidate, at, pointings }))
  return {
    candidateId,
    name: candidate.name,
    basis: `Mode-field diameters and spots are full 1/e² widths of the intensity at ${valueText(project.requirements.wavelength)}.`,
    // The same filling in two gaps is bought once.
    lines: lines.filter(
      (each, i) => each.quantity !== 'as needed' || lines.findIndex(({ part }) => part === each.part) === i,
    ),
    questions: openQuestions(project, candidate),
  }
}
