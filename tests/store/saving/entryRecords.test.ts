// The records of the browser's database: whatever is edited, they hold the project, and a write holds only what has changed.

import fc from 'fast-check'
import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { demoProject } from '../../../src/model'
import type { Project } from '../../../src/model/schema/project'
import { type EntryKeys, projectOfRecords, recordsOf } from '../../../src/store/saving/entryRecords'

/** Records as a database would keep them. */
function records() {
  const entries = new Map<string, unknown>()
  let frame: unknown
  let known: EntryKeys = new Map()
  let last = 0
  return {
    entries,
    read: () => projectOfRecords(frame, entries),
    write: (project: Project) => {
      const next = recordsOf(project, known, () => `entry ${++last}`)
      for (const key of next.dropped) entries.delete(key)
      for (const [key, entry] of next.added) entries.set(key, structuredClone(entry))
      frame = structuredClone(next.frame)
      known = next.keys
      return next
    },
  }
}

const LISTS = ['fibres', 'candidates', 'measurements', 'media'] as const
type Edit = (project: Project, list: (typeof LISTS)[number], at: number) => Project

const EDITS: readonly Edit[] = [
  (project, list, at) =>
    produce(project, (draft) => {
      const entry = draft[list][at % Math.max(1, draft[list].length)]
      if (entry !== undefined) Object.assign(entry, { id: `changed ${at}` })
    }),
  (project, list, at) =>
    produce(project, (draft) => void draft[list].splice(at % Math.max(1, draft[list].length), 1)),
  // The same object twice, as an edit that inserts an entry again may leave it.
  (project, list, at) => {
    const entries: unknown[] = [...project[list]]
    if (entries.length > 0) entries.splice(at % entries.length, 0, entries[(at * 7) % entries.length])
    return { ...project, [list]: entries } as Project
  },
  (project, list) => ({ ...project, [list]: [...project[list]].reverse() }) as Project,
  (project, _, at) => ({ ...project, name: `Renamed ${at}` }),
  (project, _, at) =>
    at % 2 === 0 ? { ...project, revisions: undefined } : { ...project, revisions: [], remark: `${at}` },
]

describe('the records', () => {
  test('hold the project after any edits, and nothing besides', () => {
    const steps = fc.array(fc.tuple(fc.nat(EDITS.length - 1), fc.constantFrom(...LISTS), fc.nat(50)), {
      maxLength: 12,
    })
    fc.assert(
      fc.property(steps, (edits) => {
        const store = records()
        let project: Project = demoProject()
        store.write(project)
        for (const [kind, list, at] of edits) {
          project = EDITS[kind]?.(project, list, at) ?? project
          const { keys } = store.write(project)
          expect(store.read()).toEqual(project)
          expect(store.entries.size).toBe(new Set(keys.values()).size)
        }
      }),
      { numRuns: 60 },
    )
  })

  test('take one entry for an edit of one design', () => {
    const store = records()
    const project = demoProject()
    expect(store.write(project).added.length).toBeGreaterThan(10)
    const edited = produce(project, (draft) => {
      if (draft.candidates[0] !== undefined) draft.candidates[0].name = 'Renamed'
    })
    const { added, dropped } = store.write(edited)
    expect(added.map(([, entry]) => entry)).toEqual([edited.candidates[0]])
    expect(dropped).toHaveLength(1)
    expect(store.write(edited).added).toEqual([])
  })

  test('give what they have where one is missing: the reader refuses it, and it is kept', () => {
    const store = records()
    store.write(demoProject())
    store.entries.delete('entry 1')
    expect(store.read()).toMatchObject({ fibres: expect.arrayContaining(['entry 1']) })
    expect(projectOfRecords(undefined, new Map())).toBeUndefined()
  })
})
