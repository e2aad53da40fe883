// What a candidate needs to be bought or made, as plain data: lines for the order, questions for the suppliers.

import { elementReferences } from '../model/project/references'
import type { Quantity } from '../model/quantity/quantity'
import { fieldWords, toleranceText, valueText } from '../model/quantity/quantityWords'
import type { Candidate, GapElement, RelayElement } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { type OrderLine, orderLines } from './orderLines'
import { pointingsOf } from './pointings'

export interface OrderList {
  readonly candidateId: string
  readonly name: string
  readonly lines: readonly OrderLine[]
  /** What the mode-field diameters of the lines mean. */
  readonly basis: string
  /** Every number of the parts that is only an estimate. */
  readonly questions: readonly string[]
}

function isQuantity(value: object): value is Quantity {
  return 'value' in value && 'unit' in value && 'provenance' in value
}

/** Questions about every estimate in an entry, however deep. */
function questionsOf(name: string, entry: object): readonly string[] {
  return Object.entries(entry).flatMap(([field, value]): readonly string[] => {
    if (typeof value !== 'object' || value === null) return []
    if (!isQuantity(value)) return questionsOf(field === 'tm' ? `${name}, TM mode` : name, value)
    if (value.provenance !== 'estimate') return []
    const text = `${valueText(value)} ${toleranceText(value)}`.trim()
    return [`${name}: ${fieldWords(field)} ${text} is an estimate; please confirm value and tolerance.`]
  })
}

/** End faces are ordered too. */
function faceQuestions(element: GapElement | RelayElement): readonly string[] {
  const { nearFaceAngle, farFaceAngle } = element
  return questionsOf('End faces', { nearFaceAngle, farFaceAngle })
}

function openQuestions(project: Project, candidate: Candidate): readonly string[] {
  const questions = candidate.chain.flatMap((element) => [
    ...elementReferences(element).flatMap(({ list, partId }) =>
      project[list].filter((part) => part.id === partId).flatMap((part) => questionsOf(part.name, part)),
    ),
    ...(element.kind === 'splice' && element.basis === 'typed'
      ? questionsOf('Fusion splice', { loss: element.loss })
      : []),
    ...(element.kind === 'stub' ? questionsOf('Stub', { length: element.length }) : []),
    ...(element.kind === 'gap' || element.kind === 'relay' ? faceQuestions(element) : []),
    ...(element.kind === 'relay' && element.device !== undefined
      ? questionsOf(element.device.name, element.device)
      : []),
  ])
  const block = candidate.array === undefined ? [] : questionsOf('Fibre array', candidate.array)
  return [...new Set([...questions, ...block])]
}

/** The order list of one candidate, or null where the project has no such. */
export function orderList(project: Project, candidateId: string): OrderList | null {
  const candidate = project.candidates.find((each) => each.id === candidateId)
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
