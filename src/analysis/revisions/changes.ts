// What differs between two states of a design, as single changes that can each be made alone.

import type { Quantity } from '../../model/quantity/quantity'
import { fieldWords, toleranceText, valueText } from '../../model/quantity/quantityWords'
import type { Design } from '../../model/schema/project'
import { byId } from '../../model/words/byId'

type Json = unknown
type Fields = Readonly<Record<string, Json>>

export interface Change {
  /** Where, in words: `High-NA stub, bonded: gap: offset x`. */
  readonly label: string
  readonly before: string
  readonly after: string
  /** The design with this change and no other. */
  readonly apply: (design: Design) => Design
}

/** A field of an object, or the member of a list that has an id. */
type Step = { readonly field: string } | { readonly id: string }

interface Location {
  readonly steps: readonly Step[]
  readonly names: readonly string[]
}

/** Says nothing about the design: how its sheet looks. */
const IGNORED: ReadonlySet<string> = new Set(['review'])
/** Lists whose order matters are replaced as a whole where members come, go or move. */
const ORDERED: ReadonlySet<string> = new Set(['chain'])

const isFields = (value: Json): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function isQuantity(value: Json): value is Quantity {
  return isFields(value) && 'value' in value && 'unit' in value && 'provenance' in value
}

type Member = Fields & { readonly id: string }

function members(value: Json): readonly Member[] | null {
  if (!Array.isArray(value)) return null
  return value.every((each) => isFields(each) && typeof each.id === 'string') ? (value as Member[]) : null
}

const same = (a: Json, b: Json) => JSON.stringify(a) === JSON.stringify(b)

const nameOf = (member: Member): string =>
  typeof member.name === 'string' ? member.name : typeof member.kind === 'string' ? member.kind : member.id

function quantityWords(quantity: Quantity): string {
  const { tolerance, provenance } = quantity
  const spread = tolerance === undefined ? '' : `${toleranceText(quantity)} ${tolerance.distribution}`
  return [valueText(quantity), spread.trim(), provenance].filter((each) => each !== '').join(', ')
}

/** Longer texts, such as packed readings, are shown by their beginning. */
const LONGEST_WORDS = 200

function words(value: Json): string {
  const text = wholeWords(value)
  return text.length > LONGEST_WORDS ? `${[...text].slice(0, LONGEST_WORDS).join('')}…` : text
}

function wholeWords(value: Json): string {
  if (value === undefined) return 'none'
  if (isQuantity(value)) return quantityWords(value)
  const list = members(value)
  if (list !== null) return list.map(nameOf).join(', ') || 'none'
  if (isFields(value)) return 'id' in value ? nameOf(value as Member) : JSON.stringify(value)
  return typeof value === 'string' ? value : JSON.stringify(value)
}

/** The value with the entry at the steps replaced; undefined removes it. */
function replaced(root: Json, steps: readonly Step[], value: Json): Json {
  const [step, ...rest] = steps
  if (step === undefined) return value
  if ('id' in step) {
    const list = members(root) ?? []
    if (list.some(({ id }) => id === step.id)) {
      return list.flatMap((each) => {
        if (each.id !== step.id) return [each]
        const next = replaced(each, rest, value)
        return next === undefined ? [] : [next]
      })
    }
    const next = replaced(undefined, rest, value)
    return next === undefined ? list : [...list, next]
  }
  const fields = isFields(root) ? root : {}
  const next = replaced(fields[step.field], rest, value)
  const { [step.field]: _, ...others } = fields
  return next === undefined ? others : { ...fields, [step.field]: next }
}

function change(location: Location, before: Json, after: Json): Change {
  return {
    label: location.names.join(': '),
    before: words(before),
    after: words(after),
    apply: (design) => replaced(design, location.steps, after) as Design,
  }
}

function listChanges(
  before: readonly Member[],
  after: readonly Member[],
  location: Location,
): readonly Change[] {
  const ids = [...new Set([...before, ...after].map(({ id }) => id))]
  return ids.flatMap((id) => {
    const [old, now] = [before, after].map((list) => byId(list, id))
    const member = now ?? old
    const name = member === undefined ? id : nameOf(member)
    return changesAt(old, now, {
      steps: [...location.steps, { id }],
      names: [...location.names.slice(0, -1), name],
    })
  })
}

function changesAt(before: Json, after: Json, location: Location): readonly Change[] {
  if (same(before, after)) return []
  const field = location.steps.at(-1)
  const [oldList, newList] = [members(before), members(after)]
  if (oldList !== null && newList !== null) {
    const moved = !same(
      oldList.map(({ id }) => id),
      newList.map(({ id }) => id),
    )
    const ordered = field !== undefined && 'field' in field && ORDERED.has(field.field)
    return moved && ordered ? [change(location, before, after)] : listChanges(oldList, newList, location)
  }
  const nested =
    isFields(before) && isFields(after) && !isQuantity(before) && !isQuantity(after)
      ? { before, after }
      : null
  // Another kind of thing has other fields: it is exchanged as a whole.
  if (nested === null || nested.before.kind !== nested.after.kind) return [change(location, before, after)]
  const keys = [...new Set([...Object.keys(nested.before), ...Object.keys(nested.after)])]
  return keys
    .filter((key) => !IGNORED.has(key))
    .flatMap((key) =>
      changesAt(nested.before[key], nested.after[key], {
        steps: [...location.steps, { field: key }],
        names: [...location.names, fieldWords(key)],
      }),
    )
}

/** Every change that leads from one design to the other; empty where they are alike. */
export function designChanges(before: Design, after: Design): readonly Change[] {
  return changesAt(before, after, { steps: [], names: [] })
}
