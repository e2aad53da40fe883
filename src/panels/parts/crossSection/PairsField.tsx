// A table of two columns, entered as text.

import { type PairNames, pairsText, readPairs } from '../modeShape/pairsText'
import { TableText } from '../modeShape/TableText'

export function PairsField({
  names,
  first,
  second,
  onCommit,
  ...shown
}: {
  readonly label: string
  readonly names: PairNames
  readonly first: readonly number[]
  readonly second: readonly number[]
  /** What the table means, below it. */
  readonly said: string
  /** Keeps the columns, or returns what is wrong with them. Without any row the table is given up. */
  readonly onCommit: (first: number[], second: number[]) => string | null
}) {
  const commit = (text: string) => {
    const read = readPairs(text, names)
    return typeof read === 'string' ? read : (onCommit(read.first, read.second) ?? '')
  }
  return <TableText {...shown} kept={pairsText(first, second)} onCommit={commit} />
}
