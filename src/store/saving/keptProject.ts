// The project in the browser's own database, written entry by entry (entryRecords.ts).

import { createStore, promisifyRequest, type UseStore } from 'idb-keyval'
import type { Project } from '../../model/schema/project'
import { type EntryKeys, projectOfRecords, recordsOf } from './entryRecords'

const FRAME = 'modeseam-project'
const ENTRY = 'modeseam-entry-'
const ASIDE = 'modeseam-set-aside'
/** The three records of earlier releases. As long as there are any they are newer than the frame: every write removes them. */
const EARLIER = [
  'modeseam-autosave',
  'modeseam-autosave-measurements',
  'modeseam-autosave-revisions',
] as const

/** A project that is not the open one and must not be lost. */
export interface SetAside {
  readonly id: string
  readonly reason: 'unreadable' | 'late' | 'other tab'
  /** Of what could not be read: why. */
  readonly issues: readonly string[]
  readonly kept: unknown
}

export interface KeptProjects {
  /** What the last session left, whatever it is; undefined where there is nothing. */
  readonly read: () => Promise<unknown>
  readonly write: (project: Project) => Promise<void>
  /** Moves what is kept out of the way of the next write. */
  readonly setAside: (item: SetAside) => Promise<void>
  readonly listAside: () => Promise<readonly SetAside[]>
  readonly dropAside: (id: string) => Promise<void>
}

/** A transaction of the store; its requests are committed at once, because the page may be about to end. */
function writing(use: UseStore, put: (store: IDBObjectStore) => void): Promise<void> {
  return use('readwrite', (store) => {
    put(store)
    store.transaction.commit?.()
    return promisifyRequest(store.transaction)
  })
}

const entryRange = () => IDBKeyRange.bound(ENTRY, `${ENTRY}\uffff`)

/** What an earlier release has kept; undefined where there is nothing of it. */
async function readEarlier(store: IDBObjectStore): Promise<unknown> {
  const [project, measurements, revisions] = await Promise.all(
    EARLIER.map((key) => promisifyRequest(store.get(key))),
  )
  if (measurements === undefined || typeof project !== 'object' || project === null) return project
  return { ...project, measurements, ...(revisions === undefined ? {} : { revisions }) }
}

async function readRecords(store: IDBObjectStore): Promise<unknown> {
  const [earlier, frame, keys, entries] = await Promise.all([
    readEarlier(store),
    promisifyRequest(store.get(FRAME)),
    promisifyRequest(store.getAllKeys(entryRange())),
    promisifyRequest(store.getAll(entryRange())),
  ])
  if (earlier !== undefined) return earlier
  return projectOfRecords(frame, new Map(keys.map((key, at) => [String(key), entries[at]])))
}

export function browserProjects(): KeptProjects {
  const use = createStore('keyval-store', 'keyval')
  /** What the records hold, where this tab knows: it has written last, and nothing of it is on its way. */
  let held: EntryKeys | null = null
  let writes = 0
  let lastKey = 0
  const freshKey = () => `${ENTRY}${++lastKey}`

  const asideIn = async (store: IDBObjectStore) =>
    ((await promisifyRequest(store.get(ASIDE))) ?? []) as readonly SetAside[]

  return {
    read: async () => {
      held = null // another tab may have written in between
      return use('readonly', readRecords)
    },
    write: async (project) => {
      const before = held
      const { frame, keys, added, dropped } = recordsOf(project, before ?? new Map(), freshKey)
      held = null
      writes += 1
      try {
        await writing(use, (store) => {
          if (before === null) store.delete(entryRange())
          for (const key of [...EARLIER, ...dropped]) store.delete(key)
          for (const [key, entry] of added) store.put(entry, key)
          store.put(frame, FRAME)
        })
        if (writes === 1) held = keys
      } finally {
        writes -= 1
      }
    },
    setAside: (item) =>
      use('readwrite', async (store) => {
        store.put([...(await asideIn(store)), item], ASIDE)
        for (const key of [...EARLIER, FRAME, entryRange()]) store.delete(key)
        held = null
        await promisifyRequest(store.transaction)
      }),
    listAside: async () => use('readonly', asideIn),
    dropAside: (id) =>
      use('readwrite', async (store) => {
        store.put(
          (await asideIn(store)).filter((each) => each.id !== id),
          ASIDE,
        )
        await promisifyRequest(store.transaction)
      }),
  }
}
