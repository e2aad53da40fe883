// A change of one value of a project, written as `facets[0].mfdX=3.4 um`: entries of a list by their number or their id.

import { failure, type Path, pathText, type Result, success } from '../../model/issue'
import { readProject } from '../../model/project/parseProject'
import type { Quantity } from '../../model/quantity/quantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import { readQuantityText } from '../../model/quantity/quantityText'
import { rewriteQuantity } from '../../model/quantity/rewriteQuantity'
import { dimensionOf } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'

export interface ProjectChange {
  /** As it was written: `candidates[dry].chain[1].gap`. */
  readonly fieldPath: string
  /** What is put there: `3.4 um`, `0.5`, `true`. */
  readonly text: string
}

/** The change that a word of the command line asks for; null where the word is none. */
export function readChange(word: string): ProjectChange | null {
  const [, fieldPath, text] = /^([^=]+)=(.*)$/s.exec(word) ?? []
  return fieldPath === undefined || text === undefined || text.trim() === ''
    ? null
    : { fieldPath: fieldPath.trim(), text }
}

const refused = (message: string): Result<never> => failure({ path: [], code: 'reference', message })

/** The steps of a written path: names after dots, what is in brackets unchanged. */
function stepsOf(fieldPath: string): readonly string[] | null {
  const steps: string[] = []
  let left = fieldPath
  while (left !== '') {
    const [whole, name, bracket] = /^(?:\.?([A-Za-z]\w*)|\[([^\]]+)\])/.exec(left) ?? []
    if (whole === undefined) return null
    steps.push(name ?? bracket ?? '')
    left = left.slice(whole.length)
  }
  return steps
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null

/** The entry of a list that a step means: its number from 0, or its id. */
function entryOf(list: readonly unknown[], step: string): number {
  const named = list.findIndex((entry) => isRecord(entry) && entry.id === step)
  return named >= 0 || !/^\d+$/.test(step) ? named : Number(step)
}

/** The path in the project, as its lists and names are; or what is not there. */
export function findField(project: Project, fieldPath: string): Result<Path> {
  const steps = stepsOf(fieldPath)
  if (steps === null || steps.length === 0) {
    return refused(`"${fieldPath}" is not a path such as candidates[0].chain[1].gap`)
  }
  const path: (string | number)[] = []
  let here: unknown = project
  for (const step of steps) {
    const key = Array.isArray(here) ? entryOf(here, step) : step
    const next = isRecord(here) && Object.hasOwn(here, key) ? here[key] : undefined
    if (next === undefined) {
      const known = Array.isArray(here)
        ? here.map((entry, at) => (isRecord(entry) && typeof entry.id === 'string' ? entry.id : at))
        : isRecord(here)
          ? Object.keys(here)
          : []
      const where = path.length === 0 ? 'The project' : `"${pathText(path)}"`
      return refused(`${where} has no ${step}${known.length === 0 ? '' : `; known: ${known.join(', ')}`}`)
    }
    path.push(key)
    here = next
  }
  return success(path)
}

/** Reads a text as the quantity would in its field, apart from its limits, which the schema knows. */
async function readFor(quantity: Quantity, label: string, text: string) {
  const dimension = dimensionOf(quantity.unit) ?? 'ratio'
  const free = { minCore: Number.NEGATIVE_INFINITY, maxCore: Number.POSITIVE_INFINITY }
  return readQuantityText(text, { label, dimension, unit: quantity.unit, step: 1, ...free }, quantity.unit)
}

/** The plain value that a text means in place of another one; undefined where it is none of that kind. */
function plainValue(now: unknown, text: string): unknown {
  const word = text.trim()
  if (typeof now === 'string') return word
  if (typeof now === 'boolean') return word === 'true' ? true : word === 'false' ? false : undefined
  if (typeof now === 'number') return Number.isFinite(Number(word)) ? Number(word) : undefined
  return undefined
}

/** The project with one value changed, checked as a file is; or why that is not a project. */
export async function withChange(
  project: Project,
  { fieldPath, text }: ProjectChange,
): Promise<Result<Project>> {
  const found = findField(project, fieldPath)
  if (!found.ok) return found
  const path = found.value
  const draft = structuredClone(project)
  const quantity = quantityAt(draft, path)
  if (quantity !== undefined) {
    const read = await readFor(quantity, fieldPath, text)
    if (!read.ok) return read
    rewriteQuantity(quantity, read.value)
    return readProject(draft)
  }
  const key = path.at(-1) ?? ''
  const parent = path.slice(0, -1).reduce<unknown>((here, step) => Reflect.get(Object(here), step), draft)
  const now: unknown = Reflect.get(Object(parent), key)
  const value = plainValue(now, text)
  if (value === undefined) {
    const kind = isRecord(now) ? 'a list or a record, which has no single value' : `a ${typeof now}`
    return refused(`"${fieldPath}" is ${kind}; it cannot be set to "${text}"`)
  }
  Reflect.set(Object(parent), key, value)
  return readProject(draft)
}
