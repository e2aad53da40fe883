// The project in the browser's own database. Readings and revisions, which may be large, have records of their own and are
// written only when they have changed.

import { createStore, promisifyRequest, type UseStore } from 'idb-keyval'
import type { Project } from '../../model/schema/project'

const PROJECT = 'modeseam-autosave'
const MEASUREMENTS = 'modeseam-autosave-measurements'
const REVISIONS = 'modeseam-autosave-revisions'
const ASIDE = 'modeseam-set-aside'

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

export function browserProjects(): KeptProjects {
  const use = createStore('keyval-store', 'keyval')
  /** What the records hold as far as this tab has written them; another tab may write in between its turns. */
  let written: Pick<Project, 'measurements' | 'revisions'> | null = null

  const asideIn = async (store: IDBObjectStore) =>
    ((await promisifyRequest(store.get(ASIDE))) ?? []) as readonly SetAside[]

  return {
    read: async () => {
      written = null
      return use('readonly', async (store) => {
        const [project, measurements, revisions] = await Promise.all(
          [PROJECT, MEASUREMENTS, REVISIONS].map((key) => promisifyRequest(store.get(key))),
        )
        if (measurements === undefined || typeof project !== 'object' || project === null) return project
        return { ...project, measurements, ...(revisions === undefined ? {} : { revisions }) }
      })
    },
    write: async (project) => {
      const { measurements, revisions, ...rest } = project
      const before = written
      await writing(use, (store) => {
        store.put(rest, PROJECT)
        if (before?.measurements !== measurements) store.put(measurements, MEASUREMENTS)
        if (before === null || before.revisions !== revisions) {
          if (revisions === undefined) store.delete(REVISIONS)
          else store.put(revisions, REVISIONS)
        }
      })
      written = { measurements, revisions }
    },
    setAside: (item) =>
      use('readwrite', async (store) => {
        store.put([...(await asideIn(store)), item], ASIDE)
        for (const key of [PROJECT, MEASUREMENTS, REVISIONS]) store.delete(key)
        written = null
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
