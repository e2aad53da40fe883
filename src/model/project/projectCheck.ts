// Whether a project would be read back from its own file, asked after every edit: only what has changed since the last
// answer is looked at, because an edit leaves everything else as the object it was.

import type { z } from 'zod'
import type { Issue } from '../issue'
import { candidateSchema } from '../schema/candidate'
import { measurementSchema } from '../schema/measurement'
import { converterSchema, facetSchema, fibreSchema, lensSchema, mediumSchema } from '../schema/parts'
import { type Project, projectSchema, revisionSchema } from '../schema/project'
import { LIMITS } from '../words/limits'
import { hostileInputIssues, INPUT_LIMITS } from './hostileInput'
import { readProjectText } from './parseProject'
import { projectText } from './projectText'
import { designReferenceIssues, duplicateIds } from './references'

const LISTS = [
  { list: 'fibres', entry: fibreSchema, most: LIMITS.parts },
  { list: 'facets', entry: facetSchema, most: LIMITS.parts },
  { list: 'media', entry: mediumSchema, most: LIMITS.parts },
  { list: 'converters', entry: converterSchema, most: LIMITS.parts },
  { list: 'lenses', entry: lensSchema, most: LIMITS.parts },
  { list: 'candidates', entry: candidateSchema, most: LIMITS.candidates },
  { list: 'measurements', entry: measurementSchema, most: LIMITS.measurements },
  { list: 'revisions', entry: revisionSchema, most: LIMITS.revisions },
] as const satisfies readonly {
  readonly list: keyof Project
  readonly entry: z.ZodType
  readonly most: number
}[]

const NO_ENTRIES = Object.fromEntries(LISTS.map(({ list }) => [list, []]))

/** What an entry adds to a file, a little more rather than less. */
interface Weight {
  readonly bytes: number
  /** The same without packed numbers. */
  readonly plainBytes: number
  readonly values: number
}

const utf8 = new TextEncoder()
/** Two spaces for each of the two levels of an entry of a list, and the comma after it. */
const INDENT = 4
const COMMA = 2
/** Text that a file holds as it is, a byte a character. */
const PLAIN_TEXT = /^[\w+/=]*$/

function weightOf(value: unknown): Weight {
  let packed = 0
  const text = JSON.stringify(
    value,
    (key, each) => {
      if (key !== INPUT_LIMITS.packedKey || typeof each !== 'string') return each
      packed += PLAIN_TEXT.test(each) ? each.length : utf8.encode(JSON.stringify(each)).length
      return ''
    },
    2,
  )
  const lines = text.split('\n').length
  const plainBytes = utf8.encode(text).length + lines * INDENT + COMMA
  return { bytes: plainBytes + packed, plainBytes, values: valuesIn(value) }
}

function valuesIn(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 1
  return Object.values(value).reduce<number>((sum, each) => sum + valuesIn(each), 1)
}

/** Entries that obey the rules, with their weights. An entry that is changed is another object. */
type Sound = WeakMap<object, Weight>

/** The weight of an entry that obeys every rule; null for one that does not. */
function soundWeight(sound: Sound, schema: z.ZodType, entry: unknown): Weight | null {
  if (typeof entry !== 'object' || entry === null) return null
  const known = sound.get(entry)
  if (known !== undefined) return known
  // An entry is two levels below the top of its file.
  if (hostileInputIssues([[entry]]).length > 0 || !schema.safeParse(entry).success) return null
  if (schema === revisionSchema && designReferenceIssues((entry as { design: never }).design).length > 0) {
    return null
  }
  const weight = weightOf(entry)
  sound.set(entry, weight)
  return weight
}

/** A project without its entries, which obeys the rules, with its weight. */
interface SoundFrame {
  readonly frame: object
  readonly weight: Weight
}

/** Whether both hold the very same values under the same keys. */
function holdsTheSame(a: object, b: object): boolean {
  const entries = Object.entries(a)
  return (
    entries.length === Object.keys(b).length &&
    entries.every(([key, value]) => Object.is(value, (b as Record<string, unknown>)[key]))
  )
}

/** The frame of a project; null where it does not obey the rules. Most edits leave it as it was `before`. */
function soundFrame(before: SoundFrame | null, project: Project): SoundFrame | null {
  const frame = { ...project, ...NO_ENTRIES }
  if (before !== null && holdsTheSame(frame, before.frame)) return before
  const isSound = hostileInputIssues(frame).length === 0 && projectSchema.safeParse(frame).success
  return isSound ? { frame, weight: weightOf(frame) } : null
}

function isSound(sound: Sound, { weight: frameWeight }: SoundFrame, project: Project): boolean {
  let { bytes, plainBytes, values } = frameWeight
  for (const { list, entry: schema, most } of LISTS) {
    const entries: unknown = project[list] ?? []
    if (!Array.isArray(entries) || entries.length > most) return false
    for (const entry of entries) {
      const weight = soundWeight(sound, schema, entry)
      if (weight === null) return false
      bytes += weight.bytes
      plainBytes += weight.plainBytes
      values += weight.values
    }
  }
  return (
    bytes <= INPUT_LIMITS.textBytes &&
    plainBytes <= INPUT_LIMITS.plainBytes &&
    values <= INPUT_LIMITS.nodes &&
    duplicateIds(project.measurements, ['measurements']).length === 0 &&
    duplicateIds(project.revisions ?? [], ['revisions']).length === 0 &&
    designReferenceIssues(project).length === 0
  )
}

/**
 * A function that says why a project would not be read back, and nothing where it would. It remembers what it has found
 * in order, so that asking again after an edit costs as much as what the edit has changed.
 */
export function projectCheck(): (project: Project) => readonly Issue[] {
  const sound: Sound = new WeakMap()
  let frame: SoundFrame | null = null
  return (project) => {
    frame = soundFrame(frame, project)
    if (frame !== null && isSound(sound, frame, project)) return []
    const read = readProjectText(projectText(project))
    return read.ok ? [] : read.issues
  }
}
