// The design in the one spelling from which its checksum is taken: keys sorted, no spaces. Kept revisions are omitted, so
// that a revision has the checksum that its paper had, and so is how the document looks: paper, ticks, comments.

import type { Project } from '../model/schema/project'
import { finish } from '../numerics/steps'
import { sha256Steps } from './sha256'

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (typeof value !== 'object' || value === null) return value
  const entries = Object.entries(value).filter(([, each]) => each !== undefined)
  return Object.fromEntries(
    entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, each]) => [key, sorted(each)]),
  )
}

/** Key by key, because the lists of a large project take long. */
export function* canonicalSteps({
  revisions: _,
  review: __,
  ...design
}: Project): Generator<void, string, void> {
  const entries = Object.entries(design).filter(([, each]) => each !== undefined)
  const pieces: string[] = []
  for (const [key, each] of entries.sort(([a], [b]) => (a < b ? -1 : 1))) {
    pieces.push(`${JSON.stringify(key)}:${JSON.stringify(sorted(each))}`)
    yield
  }
  return `{${pieces.join(',')}}`
}

/** SHA-256 of the canonical design, 64 hexadecimal digits. */
export function projectChecksum(project: Project): string {
  return finish(checksumSteps(project))
}

/** The same with pauses. */
export function* checksumSteps(project: Project): Generator<void, string, void> {
  return yield* sha256Steps(yield* canonicalSteps(project))
}
