// A comparison as plain data: columns of candidates, rows of one quantity each, in groups.

import type { Issue } from '../../model/issue'
import type { Verdict, VerdictStatus } from '../results/verdict'

export const ROW_GROUPS = [
  'Requirements',
  'Loss',
  'Yield',
  'Alignment tolerance at the chip, 1 dB excess loss',
  'Back-reflection',
  'Build',
  'Array',
  'Operation',
] as const
export type RowGroup = (typeof ROW_GROUPS)[number]

/** `value` sorts and differs; null where the number is not known or there is none. */
export interface ComparisonCell {
  readonly value: number | null
  readonly text: string
  readonly status?: VerdictStatus
  readonly reason?: string
  /** True where it waits for a fit and may still change. */
  readonly provisional?: boolean
  /** Present in the rows of requirements. */
  readonly verdict?: Verdict
}

export interface ComparisonRow {
  readonly id: string
  readonly group: RowGroup
  readonly label: string
  readonly unit: string
  readonly digits: number
  readonly better: 'lower' | 'higher' | null
  /** One for each column, in its order. */
  readonly cells: readonly ComparisonCell[]
}

export interface ComparisonColumn {
  readonly candidateId: string
  readonly name: string
  /** Why it cannot be computed; empty where it can. */
  readonly issues: readonly Issue[]
  readonly met: number
  readonly notMet: number
  readonly notKnown: number
}

export interface Comparison {
  readonly columns: readonly ComparisonColumn[]
  readonly rows: readonly ComparisonRow[]
}
