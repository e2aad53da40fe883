// The loss of a compiled chain for many vectors at once.

import type { CompiledCandidate } from './compileCandidate'
import { gapLosses } from './gap/gapColumns'
import { type Column, type Columns, columnSum } from './vector/columns'

/** What `lossDb` of the chain is for every vector at hand: the same sum in the same order. */
export function lossColumn({ terms }: CompiledCandidate, columns: Columns): Column {
  const [first, ...rest] = terms.map(({ lossDb, reads, gapJoint }) =>
    gapJoint === undefined ? columns.columnOf(lossDb, reads) : gapLosses(gapJoint, columns),
  )
  return first === undefined ? columns.derived((out) => out.fill(0)) : columnSum(columns, [first, ...rest])
}
