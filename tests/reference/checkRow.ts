// One outside check: a number somebody else published and what the core makes of the same inputs.

import values from './data/check-values.json'

export interface CheckRow {
  readonly id: string
  readonly quantity: string
  /** Author, journal, year, or standard and clause; says "from memory" where the citation was not looked up again. */
  readonly source: string
  /** The inputs in words, for the table in docs/validation.md. */
  readonly input: string
  readonly expected: number
  readonly unit: string
  /** Largest difference allowed, in the unit. */
  readonly tolerance: number
  readonly ours: () => number
}

export interface CheckSection {
  readonly title: string
  readonly rows: readonly CheckRow[]
}

/**
 * The row of an entry of data/check-values.json. `changes` mends what stands badly in the file, such as a source that
 * only says "same".
 */
export function publishedRow(
  id: string,
  ours: () => number,
  changes: Partial<Omit<CheckRow, 'id' | 'ours'>> = {},
): CheckRow {
  const entry = values.find((value) => value.id === id)
  if (entry === undefined) throw new Error(`data/check-values.json has no entry ${id}`)
  const { quantity, source, expected, unit, tolerance } = entry
  return { id, quantity, source, input: inputText(entry.inputs), expected, unit, tolerance, ...changes, ours }
}

function inputText(inputs: object): string {
  return Object.entries(inputs)
    .filter(([name]) => name !== 'note')
    .map(
      ([name, value]) => `${name.replaceAll('_', ' ')} ${Array.isArray(value) ? value.join(' x ') : value}`,
    )
    .join(', ')
}
