// How wide the columns of the first page are, and how a text that is too long for one is shortened.

import type { Fit } from '../document/blocks'

/** Widths of the columns of text, px at the page's size; sheetStyle.ts lays them out. */
export const COLUMN_PX = {
  caption: 1000,
  reason: 1800,
  risk: 470,
  requirement: 200,
  basis: 222,
  name: 150,
  alternative: 340,
  role: 100,
  step: 170,
} as const
export const TEXT_PX = 11.5

export type SummaryColumn = keyof typeof COLUMN_PX

export type RowLines = 1 | 2 | 3

/** A further line holds a little less: words are not taken apart. */
const FURTHER_LINE = 0.85
const widthOf = (column: SummaryColumn, lines: RowLines) =>
  COLUMN_PX[column] * (1 + (lines - 1) * FURTHER_LINE)
export const short = (column: SummaryColumn, lines: RowLines = 1): Fit => ({
  widthPx: widthOf(column, lines),
  sizePx: TEXT_PX,
  cut: 'middle',
})
/** A sentence says most at its beginning. */
export const begun = (column: SummaryColumn, lines: RowLines = 1): Fit => ({
  widthPx: widthOf(column, lines),
  sizePx: TEXT_PX,
  cut: 'end',
})
