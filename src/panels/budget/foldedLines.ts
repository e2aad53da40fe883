// Which lines of a budget are folded into one, and what that line is called.

import type { BudgetLine } from '../../analysis/results/evaluation'
import { lossText } from '../../model/quantity/lossText'
import { LEAST_SHOWN_DB } from './totals'

const NUMBER_WORDS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine', 'Ten']

/** Some lines may be negative: those are as much of a line as others of their size. */
const size = ({ lossDb }: BudgetLine) => Math.abs(lossDb)

/** The lines that are folded into one: those too small to matter, and the smallest others if the pane is too small for all. */
export function foldedLines(lines: readonly BudgetLine[], mostShown: number): ReadonlySet<BudgetLine> {
  const matter = lines.filter((line) => size(line) >= LEAST_SHOWN_DB).toSorted((a, b) => size(b) - size(a))
  const shown = new Set(matter.slice(0, mostShown))
  const folded = lines.filter((line) => !shown.has(line))
  return new Set(folded.length > 1 ? folded : [])
}

/** `Five lines below 0.005`, or where larger ones are folded too `Five lines up to 0.03`. */
export function foldText(folded: readonly BudgetLine[]): string {
  const largestDb = Math.max(...folded.map(size))
  const reach = largestDb < LEAST_SHOWN_DB ? `below ${LEAST_SHOWN_DB}` : `up to ${lossText(largestDb)}`
  return `${NUMBER_WORDS[folded.length] ?? folded.length} lines ${reach}`
}
