// The loss of a compiled chain for many vectors at once.

import type { CompiledCandidate } from './compileCandidate'
import { type Column, type Columns, columnSum } from './vector/columns'

/** What `lossDb` of the chain is for every vector at hand: the same sum in the same order. */
export function lossColumn({ terms }: CompiledCandidate, columns: Columns): Column {
  const [first, ...rest] = terms.map(
    ({ lossDb, reads, column }) => column?.(columns) ?? columns.columnOf(lossDb, reads),
  )
  return first === undefined ? columns.derived((out) => out.fill(0)) : columnSum(columns, [first, ...rest])
}
