// The loss budget of a design: lines, totals, and which tolerances matter.

import { lazy } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useFreshRuns } from '../../store/runs'
import { Pane } from '../../ui/controls/Panes'
import { BudgetTable } from './BudgetTable'
import { CautionList } from './CautionList'
import { Contributions } from './Contributions'
import { WorstCornerSettings } from './WorstCornerSettings'
import './budget.css'

const BudgetSteps = lazy(async () => ({ default: (await import('./BudgetSteps')).BudgetSteps }))

export function BudgetPane({
  project,
  design,
  evaluation,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly evaluation: Evaluation
}) {
  const run = useFreshRuns('yield', project).get(design.id) ?? null
  return (
    <Pane name="Budget" title="Loss budget, dB">
      <CautionList notes={evaluation.validity} />
      <BudgetTable evaluation={evaluation} run={run} />
      <Contributions evaluation={evaluation} />
      <WorstCornerSettings evaluation={evaluation} />
      <BudgetSteps evaluation={evaluation} />
    </Pane>
  )
}
