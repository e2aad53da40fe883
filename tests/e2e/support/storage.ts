// The browser's own database, as the app keeps it, from outside.

import type { Page } from 'playwright-core'

/** One value of the database; given one, writes it first. */
export async function stored(page: Page, key: string, write?: unknown): Promise<unknown> {
  return page.evaluate(
    ([name, value, writes]) =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open('keyval-store')
        opening.onupgradeneeded = () => opening.result.createObjectStore('keyval')
        opening.onerror = () => reject(opening.error)
        opening.onsuccess = () => {
          const store = opening.result.transaction('keyval', 'readwrite').objectStore('keyval')
          if (writes) store.put(value, name as string)
          const reading = store.get(name as string)
          reading.onsuccess = () => {
            opening.result.close()
            resolve(reading.result)
          }
        }
      }),
    [key, write, write !== undefined] as const,
  )
}
