// The chosen candidate, whether it meets what was asked, and why it was chosen.

import { statusText } from '../../analysis/results/verdict'
import { type Block, table, text } from '../document/blocks'
import { lossCell } from '../document/cells'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'
import { leavesOutSummary } from './summary'
import { MOST_VERDICTS } from './summaryVerdicts'
import { countsText, statusCounts } from './verdictWords'

function why({ project, choice, candidates }: SheetContext): string {
  if (choice === null) return ''
  const reason = project.review?.reason ?? ''
  if (choice.byEngineer) return reason === '' ? 'Selected; no reason given yet.' : reason
  const rule =
    'No design is selected yet. This one is proposed: it has the fewest requirements not met or not evaluated'
  return candidates.length > 1 ? `${rule}; ties are decided by the lowest nominal loss.` : `${rule}.`
}

function build(context: SheetContext): readonly Block[] {
  const { choice, refused } = context
  if (choice === null) {
    return [text(refused.length === 0 ? 'No design yet.' : 'No design can be evaluated.')]
  }
  const { name, remark, verdicts, evaluation } = choice.candidate
  const own = remark === '' ? [] : [text(remark)]
  // The first page has the decision and its grounds; it shortens a long reason and a long list of requirements.
  if (context.summary !== null && !leavesOutSummary(context) && verdicts.length <= MOST_VERDICTS) {
    return choice.byEngineer ? [text(why(context)), ...own] : own
  }
  return [
    text(`${name}, ${lossCell(evaluation.nominalDb).text} dB nominal. ${countsText(statusCounts(verdicts))}`),
    text(why(context)),
    ...own,
    table(
      `Requirements, ${name}`,
      ['Requirement', 'Verdict', 'Basis'],
      verdicts.map(({ id, label, status, reason }) => ({
        mark: `verdict-${id}`,
        cells: [label, statusText(status), reason],
      })),
    ),
  ]
}

export const choiceSection: SectionSpec = { id: 'choice', title: 'Selected design', build }
