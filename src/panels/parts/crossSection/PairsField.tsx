// A table of two columns, entered as text.

import { type PairNames, pairsText, readPairs } from '../modeShape/pairsText'
import { TableText } from '../modeShape/TableText'

export function PairsField({
  names,
  first,
  second,
  read,
  ...shown
}: {
  readonly draft: string
  readonly label: string
  readonly names: PairNames
  readonly first: readonly number[]
  readonly second: readonly number[]
  /** What the table means, below it. */
  readonly said: string
  /** What keeps the columns, or what is wrong with them. Without any row the table is given up. */
  readonly read: (first: number[], second: number[]) => string | (() => void)
}) {
  const readText = (text: string) => {
    const pairs = readPairs(text, names)
    return typeof pairs === 'string' ? pairs : read(pairs.first, pairs.second)
  }
  return <TableText {...shown} kept={pairsText(first, second)} read={readText} />
}
