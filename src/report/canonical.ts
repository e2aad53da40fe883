// The project in the one spelling from which its checksum is taken: keys sorted, no spaces, kept revisions left out,
// so that a revision has the checksum that its paper had.

import type { Project } from '../model/schema/project'
import { sha256Hex } from './sha256'

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (typeof value !== 'object' || value === null) return value
  const entries = Object.entries(value).filter(([, each]) => each !== undefined)
  return Object.fromEntries(
    entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, each]) => [key, sorted(each)]),
  )
}

export function canonicalText(project: Project): string {
  const { revisions: _, ...design } = project
  return JSON.stringify(sorted(design))
}

/** SHA-256 of the canonical project, 64 hexadecimal digits. */
export function projectChecksum(project: Project): string {
  return sha256Hex(canonicalText(project))
}
