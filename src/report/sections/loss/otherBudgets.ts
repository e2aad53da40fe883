// The budgets of the candidates that were not chosen.

import { group } from '../../document/blocks'
import type { SectionSpec } from '../../section'
import { shortBudget } from './budget'

export const otherBudgetsSection: SectionSpec = {
  id: 'other-budgets',
  title: 'Budgets of the other designs',
  build: ({ choice, candidates }) => {
    const others = candidates.filter(({ id }) => id !== choice?.candidate.id)
    return others.length === 0 ? [] : [group('columns', ...others.map(shortBudget))]
  },
}
