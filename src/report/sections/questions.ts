// What is still open: what somebody wrote down, losses that are only estimates, and the questions to the suppliers.

import { group, list } from '../document/blocks'
import { lossCell } from '../document/cells'
import { orderList } from '../orderList'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

/** Lines whose number is only an estimate become questions to whoever supplies the part. */
export function openQuestions({ project, choice, candidates }: SheetContext): readonly string[] {
  const estimates = candidates.flatMap((candidate) =>
    candidate.lines
      .filter((line) => line.provenance === 'estimate' && line.lossDb > 0)
      .map(
        ({ label, lossDb }) =>
          `${candidate.name}: ${label} of ${lossCell(lossDb).text} dB is an estimate; confirm it.`,
      ),
  )
  const asked = choice === null ? [] : (orderList(project, choice.candidate.id)?.questions ?? [])
  return [...(project.review?.openQuestions ?? []), ...estimates, ...asked]
}

export const questionsSection: SectionSpec = {
  id: 'questions',
  title: 'Open questions',
  build: (context) => {
    const questions = openQuestions(context)
    return questions.length === 0 ? [] : [group('columns', list(questions))]
  },
}
