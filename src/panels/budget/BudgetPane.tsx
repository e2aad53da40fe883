// The loss budget of a design: cautions about its numbers, lines, totals, and folded which tolerances matter.

import { lazy, Suspense } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useFreshRuns } from '../../store/runs'
import { useSelection } from '../../store/selection'
import { Fold } from '../../ui/controls/Fold'
import { Pane } from '../../ui/controls/Panes'
import { BudgetTable } from './BudgetTable'
import { CautionList } from './CautionList'
import { Contributions } from './Contributions'
import { totalsOf } from './totals'
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
  const selection = useSelection(design)
  const notes = evaluation.validity.filter(({ caution }) => caution !== true)
  const totals = totalsOf(evaluation, run, leadingLimitDb(project.requirements))
  return (
    <Pane name="Budget" title="Loss budget, dB">
      <CautionList notes={evaluation.validity} />
      <BudgetTable lines={evaluation.lines} totals={totals} selectedId={selection.id} />
      <div className="budget-more">
        <Fold summary="Excess loss per tolerance">{() => <Contributions evaluation={evaluation} />}</Fold>
        <WorstCornerSettings evaluation={evaluation} />
        <Fold summary="Waterfall of the contributions">
          {() => (
            <Suspense fallback={null}>
              <BudgetSteps evaluation={evaluation} />
            </Suspense>
          )}
        </Fold>
        {notes.length > 0 && (
          <details>
            <summary>Validity of the results</summary>
            <ul>
              {notes.map(({ elementId, message }) => (
                <li key={`${elementId} ${message}`}>{message}</li>
              ))}
            </ul>
          </details>
        )}
      </div>
    </Pane>
  )
}
