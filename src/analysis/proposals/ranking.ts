// Which design comes first: the one that misses fewest requirements, then the one with the fewest not evaluated, then
// the one with the lowest loss by the result to which the limit applies.

import { byId } from '../../model/words/byId'
import type { Comparison } from '../compare/comparison'

/** The figures of loss in the order in which they are asked, by what the limit applies to. */
const FIGURES = {
  nominal: ['nominal'],
  RSS: ['rss'],
  'worst case': ['worst'],
  percentile: ['percentile', 'rss'],
} as const

export type RankedBy = keyof typeof FIGURES

interface Rank {
  readonly candidateId: string
  /** Place of the column in the comparison. */
  readonly at: number
  readonly meetsAll: boolean
}

/** The columns of a comparison, best first; designs that cannot be computed come last. Ties keep their order. */
export function rankDesigns({ columns, rows }: Comparison, by: RankedBy): readonly Rank[] {
  const lossAt = (at: number): number => {
    // All designs are compared by one figure: the first that every computed one has.
    const figure = FIGURES[by].find((id) => {
      const row = byId(rows, id)
      return columns.every(({ issues }, i) => issues.length > 0 || row?.cells[i]?.value != null)
    })
    return rows.find(({ id }) => id === figure)?.cells[at]?.value ?? Number.MAX_VALUE
  }
  return columns
    .map((column, at) => ({ column, at, lossDb: lossAt(at) }))
    .toSorted(
      (a, b) =>
        Number(a.column.issues.length > 0) - Number(b.column.issues.length > 0) ||
        a.column.notMet - b.column.notMet ||
        a.column.notKnown - b.column.notKnown ||
        a.lossDb - b.lossDb,
    )
    .map(({ column, at }) => ({
      candidateId: column.candidateId,
      at,
      meetsAll: column.issues.length === 0 && column.notMet === 0 && column.notKnown === 0,
    }))
}
