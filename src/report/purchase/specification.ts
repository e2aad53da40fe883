// The purchase specification of a design as data: every part with its numbers, its quantity, and what is still open.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { OrderedPart } from '../../model/schema/purchase'
import { ORDER_TEXT_LABELS, type OrderText } from '../../model/words/purchase'
import { type Characteristic, isOpen, requirementText } from '../characteristics/characteristic'
import { type Build, buildOf, piecesFor } from './buildQuantity'
import type { OrderedItem } from './items/orderedItem'
import { orderedItems } from './items/orderedItems'

export interface SpecifiedItem extends OrderedItem {
  /** What the engineer has entered for it. */
  readonly own: OrderedPart
  /** Null where no build is planned, or where it is bought by volume. */
  readonly pieces: number | null
  readonly openQuestions: readonly string[]
}

export interface Specification {
  readonly build: Build | null
  readonly items: readonly SpecifiedItem[]
}

/** The texts that an order of this part needs; a further term is never missing. */
export function wantedTexts({ has }: Pick<OrderedItem, 'has'>): readonly OrderText[] {
  return [
    'supplier',
    'partNumber',
    ...(has.cable ? (['connector'] as const) : []),
    ...(has.endFace ? (['finish'] as const) : []),
    ...(has.key !== null ? (['key'] as const) : []),
  ]
}

/** A free-space component has no key: what is marked on it is the input polarisation. */
export const orderTextLabel = ({ has }: Pick<OrderedItem, 'has'>, field: OrderText): string =>
  field === 'key' && has.key === 'input polarisation'
    ? 'Orientation of the input polarisation'
    : ORDER_TEXT_LABELS[field]

export const textOf = (own: OrderedPart, field: OrderText): string => own[field]?.trim() ?? ''

function questionsOf(item: OrderedItem, own: OrderedPart): readonly string[] {
  const missing = wantedTexts(item)
    .filter((field) => textOf(own, field) === '')
    .map((field) => `${orderTextLabel(item, field)}: not stated.`)
  const length = item.has.cable && own.length === undefined ? ['Fibre length: not stated.'] : []
  const named = (chosen: readonly Characteristic[], start: string, end: string) =>
    chosen.length === 0
      ? []
      : [`${start}${chosen.map((each) => `${each.label} ${requirementText(each)}`).join('; ')}${end}`]
  const untoleranced = item.characteristics.filter(isOpen)
  const estimates = item.characteristics.filter(
    (each) => !isOpen(each) && each.quantity.provenance === 'estimate',
  )
  const numbers = [
    ...named(untoleranced, '', '.'),
    ...named(estimates, 'Estimates, value and tolerance to be confirmed: ', '.'),
  ]
  return [...missing, ...length, ...item.questions, ...numbers]
}

/** The specification of one design as the project has it. */
export function specificationOf(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
): Specification {
  const build = buildOf(project.purchase)
  return {
    build,
    items: orderedItems(project, candidate, evaluation).map((item) => {
      const own = project.purchase?.parts?.[item.key] ?? {}
      return {
        ...item,
        own,
        pieces: build === null || item.perAssembly === null ? null : piecesFor(build, item.perAssembly),
        openQuestions: questionsOf(item, own),
      }
    }),
  }
}
