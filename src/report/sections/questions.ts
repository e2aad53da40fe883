// What is still open: what the user wrote down, losses that are only estimates, and the questions to the suppliers.

import type { SheetCandidate } from '../candidates'
import { group, list } from '../document/blocks'
import { lossCell } from '../document/cells'
import { orderList } from '../orderList'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

/** Losses that are only estimates, each with the designs that include it. */
function estimatedLosses(candidates: readonly SheetCandidate[]): readonly string[] {
  const designs = new Map<string, string[]>()
  for (const { name, lines } of candidates) {
    for (const { label, lossDb, provenance } of lines) {
      if (provenance !== 'estimate' || !(lossDb > 0)) continue
      const what = `${label}: ${lossCell(lossDb).text} dB`
      designs.set(what, [...(designs.get(what) ?? []), name])
    }
  }
  return [...designs].map(([what, names]) => `${what} is an estimate; confirm it (${names.join('; ')}).`)
}

/** What the engineer asks, losses that are only estimates, and what whoever supplies the parts is to confirm. */
function openQuestions({ project, choice, candidates }: SheetContext): readonly string[] {
  const estimates = estimatedLosses(candidates)
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
