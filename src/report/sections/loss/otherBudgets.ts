// The budgets of the candidates that were not chosen.

import type { SectionSpec } from '../../section'
import { budgetTable } from './budget'

export const otherBudgetsSection: SectionSpec = {
  id: 'other-budgets',
  title: 'Budgets of the other designs',
  build: ({ choice, candidates }) =>
    candidates.filter(({ id }) => id !== choice?.candidate.id).map(budgetTable),
}
