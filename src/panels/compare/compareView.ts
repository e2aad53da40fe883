// What the comparison shows of its columns: order, hidden ones, the baseline. No part of the project.

import { current } from 'immer'
import { useState } from 'react'
import type { Comparison } from '../../analysis/compare/comparison'
import { type RankedBy, rankDesigns } from '../../analysis/proposals/ranking'
import type { Candidate } from '../../model/schema/candidate'
import { byId } from '../../model/words/byId'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { openDesign } from '../../store/view'
import { editProject, useWorkbench } from '../../store/workbench'

interface SortOrder {
  readonly rowId: string
  readonly order: 'ascending' | 'descending'
}

export interface CompareView {
  /** Places of the shown columns, in their order. */
  readonly shown: readonly number[]
  readonly hiddenCount: number
  readonly sort: SortOrder | null
  readonly baselineId: string
  /** True where rows in which all shown designs say the same are omitted. */
  readonly onlyDiffering: boolean
  readonly setOnlyDiffering: (only: boolean) => void
  readonly setSort: (sort: SortOrder | null) => void
  readonly sortBy: (rowId: string) => void
  readonly hide: (candidateId: string) => void
  readonly showAll: () => void
  readonly pin: (candidateId: string) => void
  readonly open: (candidateId: string) => void
  readonly duplicate: (candidateId: string) => void
  /** True where every cell shows its reason. */
  readonly reasonsShown: boolean
  readonly setReasonsShown: (shown: boolean) => void
  /** Designs that meet every requirement. */
  readonly meetsAll: number
  /** Empty while no design is selected for the review. */
  readonly selectedId: string
  readonly select: (candidateId: string) => void
  /** The highlighted column: the selected design, else the first of the ranking if it meets every requirement. */
  readonly markedId: string
}

/** `6 designs, 1 meets every requirement`. */
export function meetsText(designs: number, meetsAll: number): string {
  if (designs === 1) return `1 design, ${meetsAll === 1 ? 'meets' : 'does not meet'} every requirement`
  const those = meetsAll === 0 ? 'none meets' : meetsAll === 1 ? '1 meets' : `${meetsAll} meet`
  return `${designs} designs, ${those} every requirement`
}

/** Columns without a number in the sorted row go last. */
function sortedPositions(comparison: Comparison, positions: readonly number[], sort: SortOrder | null) {
  const row = byId(comparison.rows, sort?.rowId)
  if (sort === null || row === undefined) return positions
  const sign = sort.order === 'ascending' ? 1 : -1
  const value = (at: number) => row.cells[at]?.value ?? null
  return positions.toSorted((a, b) => {
    const [left, right] = [value(a), value(b)]
    if (left === null || right === null) return (left === null ? 1 : 0) - (right === null ? 1 : 0)
    return sign * (left - right)
  })
}

export function useCompareView(comparison: Comparison, rankedBy: RankedBy): CompareView {
  const [reasonsShown, setReasonsShown] = useState(false)
  const chosenId = useWorkbench((state) => state.project.review?.chosenId ?? '')
  const [hidden, setHidden] = useState<ReadonlySet<string>>(new Set())
  const [sort, setSort] = useState<SortOrder | null>(null)
  const [baselineId, setBaselineId] = useState('')
  const [onlyDiffering, setOnlyDiffering] = useState(false)
  const ranking = rankDesigns(comparison, rankedBy)
  const positions = ranking.flatMap(({ candidateId, at }) => (hidden.has(candidateId) ? [] : [at]))
  const selectedId = comparison.columns.some(({ candidateId }) => candidateId === chosenId) ? chosenId : ''
  const [first] = ranking
  return {
    reasonsShown,
    setReasonsShown,
    meetsAll: ranking.filter(({ meetsAll }) => meetsAll).length,
    selectedId,
    select: (candidateId) =>
      editProject((draft) => {
        const { chosenId: _, ...rest } = draft.review ?? {}
        draft.review = candidateId === '' ? rest : { ...rest, chosenId: candidateId }
      }),
    markedId: selectedId === '' && first?.meetsAll === true ? first.candidateId : selectedId,
    shown: sortedPositions(comparison, positions, sort),
    hiddenCount: comparison.columns.length - positions.length,
    sort,
    baselineId,
    onlyDiffering,
    setOnlyDiffering,
    setSort,
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
        const own = byId(draft.candidates, candidateId)
        if (own === undefined || draft.candidates.length >= LIMITS.candidates) return
        const copy: Candidate = structuredClone(current(own))
        copy.id = freeId('candidate', draft.candidates)
        copy.name = freeName(`${own.name} (copy)`, draft.candidates)
        draft.candidates.push(copy)
      })
      setBaselineId(candidateId)
    },
  }
}
