// One outside check: a published number or that of an independent calculation, and the result of the core for the same inputs.

import values from './data/check-values.json'

export interface CheckRow {
  readonly id: string
  readonly quantity: string
  /** Author, journal, year, or standard and clause; or one of the two labels of sources.ts. */
  readonly source: string
  /** The number itself is printed in the source, and is kept as it is printed there; others are calculated from what it says. */
  readonly published?: boolean
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

/** The row of an entry of data/check-values.json; `changes` says more exactly what this core does with it. */
export function recordedRow(
  id: string,
  ours: () => number,
  changes: Partial<Omit<CheckRow, 'id' | 'ours'>> = {},
): CheckRow {
  const entry = values.find((value) => value.id === id)
  if (entry === undefined) throw new Error(`data/check-values.json has no entry ${id}`)
  const { quantity, source, published, expected, unit, tolerance } = entry
  return {
    id,
    quantity,
    source,
    published,
    input: inputText(entry.inputs),
    expected,
    unit,
    tolerance,
    ...changes,
    ours,
  }
}

function inputText(inputs: object): string {
  return Object.entries(inputs)
    .filter(([name]) => name !== 'note')
    .map(([name, value]) => {
      const values = (Array.isArray(value) ? value : [value]).map(shortText)
      return `${name.replaceAll('_', ' ')} ${values.join(name.startsWith('mfd') ? ' x ' : ' / ')}`
    })
    .join(', ')
}

/** Without the last bits of a number that was computed. */
const shortText = (value: unknown) =>
  typeof value === 'number' ? String(Number(value.toPrecision(7))) : String(value)
