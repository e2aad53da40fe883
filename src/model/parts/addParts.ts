// Parts from a catalogue or a file into a project: new ids and names where theirs are taken, copies all of them.

import { PART_LISTS, type PartLists } from '../project/references'
import type { Project } from '../schema/project'
import { freeId, freeName } from '../words/freeName'
import { LIMITS } from '../words/limits'

interface Entry {
  id: string
  name: string
}

/** Adds copies to the draft up to the limits of its lists; returns how many were added. */
export function addParts(draft: Project, parts: Partial<PartLists>): number {
  let added = 0
  for (const list of PART_LISTS) {
    const entries: Entry[] = draft[list]
    for (const part of parts[list] ?? []) {
      if (entries.length >= LIMITS.parts) break
      const taken = entries.some((each) => each.id === part.id)
      const id = taken ? freeId(part.id.slice(0, 70), entries) : part.id
      entries.push({ ...structuredClone(part), id, name: freeName(part.name, entries) })
      added += 1
    }
  }
  return added
}
