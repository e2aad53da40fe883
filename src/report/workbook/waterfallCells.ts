// The lines of a budget as a waterfall: each bar begins where the one before ends.

import { address, type PageChart, type PageWriter } from './page'
import type { FormulaTerm } from './term'

/** The rows of lines as a waterfall: labels, and what the bars are made of, as ranges. */
export type Waterfall = Pick<PageChart, 'labels' | 'base' | 'rising' | 'falling'> & { readonly bars: number }

/** Where the bars are computed, next to the chart. */
const CHART_COLUMN = 18

/** Writes what the bars of the lines are made of, and a last bar with their sum. */
export function waterfall(
  writer: PageWriter,
  firstLine: number,
  lines: readonly { readonly term: FormulaTerm }[],
  sum: FormulaTerm,
): Waterfall {
  const heads = ['Bars: base', 'Rising', 'Falling']
  for (const [i, head] of heads.entries()) writer.text(firstLine - 1, CHART_COLUMN + i, head, 'note')
  let before = 0
  for (const [i, { term }] of lines.entries()) {
    const row = firstLine + i
    const after = before + term.value
    const cells = (last: number) => (last < firstLine ? '0' : `SUM(B${firstLine + 1}:B${last + 1})`)
    const own = address(row, 1)
    const put = (column: number, text: string, value: number) =>
      writer.formula(row, CHART_COLUMN + column, { text, value }, 'carried')
    put(0, `MIN(${cells(row - 1)},${cells(row)})`, Math.min(before, after))
    put(1, `MAX(${own},0)`, Math.max(term.value, 0))
    put(2, `MAX(-${own},0)`, Math.max(-term.value, 0))
    before = after
  }
  const last = firstLine + lines.length
  writer.number(last, CHART_COLUMN, 0, 'carried')
  writer.formula(last, CHART_COLUMN + 1, sum, 'carried')
  writer.number(last, CHART_COLUMN + 2, 0, 'carried')
  const range = (column: number) =>
    `${address(firstLine, column, writer.name)}:${address(last, column, writer.name).replace(/^.*!/, '')}`
  return {
    bars: lines.length + 1,
    labels: range(0),
    base: range(CHART_COLUMN),
    rising: range(CHART_COLUMN + 1),
    falling: range(CHART_COLUMN + 2),
  }
}
