// Storage, locks and page events of a browser, as far as saving uses them, that are controlled by a test.

import type { KeptProjects, SetAside } from '../../../src/store/saving/keptProject'
import type { PageEvents } from '../../../src/store/saving/pageEvents'
import type { Locks } from '../../../src/store/saving/tabTurn'

export interface HandStorage extends KeptProjects {
  kept: unknown
  aside: SetAside[]
  /** Everything that was written, in order. */
  readonly writes: unknown[]
  /** Milliseconds of the clock that a write takes; 'never' holds it, an error refuses it. */
  behaviour: 'at once' | 'never' | Error
  /** Lets everything that is held go on. */
  readonly answer: () => void
}

export function handStorage(kept?: unknown): HandStorage {
  const held: (() => void)[] = []
  const act = async <T>(work: () => T): Promise<T> => {
    if (storage.behaviour instanceof Error) throw storage.behaviour
    if (storage.behaviour === 'never') await new Promise<void>((resolve) => held.push(resolve))
    return work()
  }
  const storage: HandStorage = {
    kept,
    aside: [],
    writes: [],
    behaviour: 'at once',
    answer: () => {
      storage.behaviour = 'at once'
      for (const go of held.splice(0)) go()
    },
    read: () => act(() => storage.kept),
    write: (project) =>
      act(() => {
        storage.kept = structuredClone(project)
        storage.writes.push(storage.kept)
      }),
    setAside: (item) =>
      act(() => {
        storage.aside.push(item)
        storage.kept = undefined
      }),
    listAside: () => act(() => storage.aside),
    dropAside: (id) =>
      act(() => {
        storage.aside = storage.aside.filter((each) => each.id !== id)
      }),
  }
  return storage
}

/** Several tabs may ask for it. */
export function handLocks(): Locks {
  let isHeld = false
  const queue: (() => void)[] = []
  return {
    request: async (_, { ifAvailable, signal }, work) => {
      if (isHeld && ifAvailable) return work(null)
      if (isHeld) {
        await new Promise<void>((resolve, reject) => {
          queue.push(resolve)
          signal?.addEventListener('abort', () => {
            queue.splice(queue.indexOf(resolve), 1)
            reject(new DOMException('', 'AbortError'))
          })
        })
      }
      isHeld = true
      try {
        return await work({})
      } finally {
        isHeld = false
        queue.shift()?.()
      }
    },
  }
}

export interface HandPage extends PageEvents {
  readonly hide: () => void
  /** Whether the person was asked. */
  readonly leave: () => boolean
}

export function handPage(): HandPage {
  let events: Parameters<PageEvents['watch']>[0] | null = null
  return {
    watch: (given) => {
      events = given
      return () => {
        events = null
      }
    },
    hide: () => events?.hidden(),
    leave: () => events?.leaving() ?? false,
  }
}
