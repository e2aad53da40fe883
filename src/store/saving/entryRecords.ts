// A project as records: a frame, and one record for every entry of its lists. An edit leaves all entries but one as the
// objects they were, so that a write holds the frame and what has changed, however large the project is.

import { PART_LISTS } from '../../model/project/references'
import type { Project } from '../../model/schema/project'

const LISTS = [...PART_LISTS, 'candidates', 'measurements', 'revisions'] as const

/** The record of each entry. */
export type EntryKeys = ReadonlyMap<object, string>

interface ProjectRecords {
  /** The project with the keys of its entries in place of the entries. */
  readonly frame: object
  readonly keys: EntryKeys
  readonly added: readonly (readonly [key: string, entry: object])[]
  /** Keys of records that no entry needs any more. */
  readonly dropped: readonly string[]
}

/** What has to be written where the entries of `known` are in the records already. `freshKey` gives a key that is not used yet. */
export function recordsOf(project: Project, known: EntryKeys, freshKey: () => string): ProjectRecords {
  const keys = new Map<object, string>()
  const added: [string, object][] = []
  const keyOf = (entry: object) => {
    const before = keys.get(entry) ?? known.get(entry)
    const key = before ?? freshKey()
    if (before === undefined) added.push([key, entry])
    keys.set(entry, key)
    return key
  }
  const frame: Record<string, unknown> = { ...project }
  for (const list of LISTS) {
    const entries = project[list]
    if (entries !== undefined) frame[list] = entries.map(keyOf)
  }
  const dropped = [...known].flatMap(([entry, key]) => (keys.has(entry) ? [] : [key]))
  return { frame, keys, added, dropped }
}

/** The project that the records hold. What is missing or of another kind is left as it is, for the reader to refuse. */
export function projectOfRecords(frame: unknown, entries: ReadonlyMap<string, unknown>): unknown {
  if (typeof frame !== 'object' || frame === null) return frame
  const project: Record<string, unknown> = { ...frame }
  for (const list of LISTS) {
    const keys = project[list]
    if (Array.isArray(keys)) project[list] = keys.map((key) => entries.get(key) ?? key)
  }
  return project
}
