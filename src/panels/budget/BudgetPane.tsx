// The loss budget of a design: cautions about its numbers, lines, totals, and folded which tolerances matter.

import { lazy, Suspense, useState } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useFreshRuns } from '../../store/runs'
import { useSelection } from '../../store/selection'
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
  const [stepsShown, setStepsShown] = useState(false)
  const run = useFreshRuns('yield', project).get(design.id) ?? null
  const selection = useSelection(design)
  const notes = evaluation.validity.filter(({ caution }) => caution !== true)
  const totals = totalsOf(evaluation, run, leadingLimitDb(project.requirements))
  return (
    <Pane name="Budget" title="Loss budget, dB">
      <CautionList notes={evaluation.validity} />
      <BudgetTable lines={evaluation.lines} totals={totals} selectedId={selection.id} />
      <div className="budget-more">
        <details>
          <summary>Excess loss per tolerance</summary>
          <Contributions evaluation={evaluation} />
        </details>
        <WorstCornerSettings evaluation={evaluation} />
        <details onToggle={(event) => setStepsShown(event.currentTarget.open)}>
          <summary>Steps from zero to the total</summary>
          {stepsShown && (
            <Suspense fallback={null}>
              <BudgetSteps evaluation={evaluation} />
            </Suspense>
          )}
        </details>
        {notes.length > 0 && (
          <details>
            <summary>Validity of the numbers</summary>
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
