// Steps that lift an old file to the present version, one step a version, oldest first.
// A step gets the raw file and returns the raw file of the next version; the schema judges the end result only.

import { fromVersion1 } from './fromVersion1'

interface Migration {
  readonly from: number
  readonly migrate: (raw: Readonly<Record<string, unknown>>) => Record<string, unknown>
}

const MIGRATIONS: readonly Migration[] = [{ from: 1, migrate: fromVersion1 }]

/** Runs every step that applies, in order; each sets the version that the next one looks for. */
export function migrate(
  raw: Readonly<Record<string, unknown>>,
  steps: readonly Migration[] = MIGRATIONS,
): Readonly<Record<string, unknown>> {
  return steps.reduce<Readonly<Record<string, unknown>>>(
    (file, step) => (file.version === step.from ? { ...step.migrate(file), version: step.from + 1 } : file),
    raw,
  )
}
