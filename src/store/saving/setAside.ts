// Projects that were set aside, until the user has opened or deleted them.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { issueText } from '../../model/issue'
import { saveFile } from '../files/saveFile'
import { openInstead } from '../files/starting'
import type { KeptProjects, SetAside } from './keptProject'

interface Offer {
  readonly items: readonly SetAside[]
  readonly drop: (id: string) => Promise<void>
}

const offer = createStore<Offer>()(() => ({ items: [], drop: async () => {} }))

/** Shows what is set aside; nothing where storage cannot be read. */
export async function offerSetAside({ listAside, dropAside }: KeptProjects): Promise<void> {
  try {
    offer.setState({ items: await listAside(), drop: dropAside })
  } catch {
    // The state of saving says already that storage does not answer.
  }
}

export function useSetAside(): readonly SetAside[] {
  return useStore(offer, ({ items }) => items)
}

/** The project's name, where what was set aside has one. */
export function setAsideName({ kept }: SetAside): string {
  const named = typeof kept === 'object' && kept !== null && 'name' in kept ? kept.name : undefined
  return typeof named === 'string' && named !== '' ? named : 'Unnamed project'
}

/** Saves it as a file, as it was kept. Says in words what came of it. */
export function saveSetAside(item: SetAside): Promise<string> {
  const stem = setAsideName(item)
    .replace(/[^A-Za-z0-9]+/g, '-')
    .slice(0, 60)
  return saveFile(`${JSON.stringify(item.kept, null, 2)}\n`, `${stem}-recovered.json`, 'application/json')
}

/** Opens it in place of the open project, which is asked about first; it stays set aside. */
export async function openSetAside(
  item: SetAside,
): Promise<{ readonly opened: boolean; readonly fault: string }> {
  const { readProject } = await import('../../model/project/parseProject')
  const result = readProject(item.kept)
  if (!result.ok) return { opened: false, fault: result.issues.map(issueText).join(' ') }
  const opened = await openInstead(`Open “${setAsideName(item)}”`, async () => result.value)
  return { opened, fault: '' }
}

export async function deleteSetAside(item: SetAside): Promise<void> {
  const { items, drop } = offer.getState()
  await drop(item.id)
  offer.setState({ items: items.filter((each) => each.id !== item.id) })
}
