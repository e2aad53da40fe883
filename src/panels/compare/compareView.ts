// What the comparison shows of its columns: order, hidden ones, the baseline. No part of the project.

import { current } from 'immer'
import { useState } from 'react'
import type { Comparison } from '../../analysis/compare/comparison'
import type { Candidate } from '../../model/schema/candidate'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { openDesign } from '../../store/view'
import { editProject } from '../../store/workbench'

export interface SortOrder {
  readonly rowId: string
  readonly order: 'ascending' | 'descending'
}

export interface CompareView {
  /** Places of the shown columns, in the order in which they stand. */
  readonly shown: readonly number[]
  readonly hiddenCount: number
  readonly sort: SortOrder | null
  readonly baselineId: string
  /** True where rows in which all shown candidates say the same are left out. */
  readonly onlyDiffering: boolean
  readonly setOnlyDiffering: (only: boolean) => void
  readonly sortBy: (rowId: string) => void
  readonly hide: (candidateId: string) => void
  readonly showAll: () => void
  readonly pin: (candidateId: string) => void
  readonly open: (candidateId: string) => void
  readonly duplicate: (candidateId: string) => void
}

/** Columns without a number in the sorted row go last. */
function sortedPlaces(comparison: Comparison, places: readonly number[], sort: SortOrder | null) {
  const row = comparison.rows.find((each) => each.id === sort?.rowId)
  if (sort === null || row === undefined) return places
  const sign = sort.order === 'ascending' ? 1 : -1
  const value = (at: number) => row.cells[at]?.value ?? null
  return places.toSorted((a, b) => {
    const [left, right] = [value(a), value(b)]
    if (left === null || right === null) return (left === null ? 1 : 0) - (right === null ? 1 : 0)
    return sign * (left - right)
  })
}

export function useCompareView(comparison: Comparison): CompareView {
  const [hidden, setHidden] = useState<ReadonlySet<string>>(new Set())
  const [sort, setSort] = useState<SortOrder | null>(null)
  const [baselineId, setBaselineId] = useState('')
  const [onlyDiffering, setOnlyDiffering] = useState(false)
  const places = comparison.columns.flatMap(({ candidateId }, at) => (hidden.has(candidateId) ? [] : [at]))
  return {
    shown: sortedPlaces(comparison, places, sort),
    hiddenCount: comparison.columns.length - places.length,
    sort,
    baselineId,
    onlyDiffering,
    setOnlyDiffering,
    sortBy: (rowId) =>
      setSort((now) => {
        if (now?.rowId !== rowId) return { rowId, order: 'ascending' }
        return now.order === 'ascending' ? { rowId, order: 'descending' } : null
      }),
    hide: (candidateId) => setHidden(new Set([...hidden, candidateId])),
    showAll: () => setHidden(new Set()),
    pin: setBaselineId,
    open: (candidateId) => openDesign(candidateId),
    duplicate: (candidateId) => {
      editProject((draft) => {
        const own = draft.candidates.find((each) => each.id === candidateId)
        if (own === undefined || draft.candidates.length >= LIMITS.candidates) return
        const copy: Candidate = structuredClone(current(own))
        copy.id = freeId('candidate', draft.candidates)
        copy.name = freeName(`${own.name}, copy`, draft.candidates)
        draft.candidates.push(copy)
      })
      setBaselineId(candidateId)
    },
  }
}
