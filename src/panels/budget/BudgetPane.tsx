// The loss budget of a design: cautions about its numbers, lines, totals, and folded which tolerances matter.

import { lazy, Suspense } from 'react'
import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { useFreshRuns } from '../../store/runs'
import { useSelection } from '../../store/selection'
import { Fold } from '../../ui/controls/Fold'
import { Pane } from '../../ui/controls/Panes'
import { typeScale } from '../../ui/figures/typeScale'
import { useRoom } from '../../ui/figures/useRoom'
import { BudgetTable } from './BudgetTable'
import { CautionList } from './CautionList'
import { Contributions } from './Contributions'
import { type Total, totalsOf } from './totals'
import { WorstCornerSettings } from './WorstCornerSettings'
import './budget.css'

const ROW_PX = 24
const TOTAL_ROW_PX = 21
/** A note of more letters goes on in a second line, which is so high. */
const NOTE_LETTERS = 28
const NOTE_LINE_PX = 16
/** Above and below the rows of the table. */
const AROUND_PX = 6
const CAUTION_PX = 30
/** A budget of fewer lines says too little, whatever the pane. */
const FEWEST_LINES = 3

/** Lines that a pane shows over its totals, the folded one aside. */
function fittingLines(roomPx: number, totals: readonly Total[], cautioned: boolean): number {
  const scale = typeScale()
  const longNotes = totals.filter(({ note }) => note.length > NOTE_LETTERS).length
  const totalsPx = totals.length * TOTAL_ROW_PX + longNotes * NOTE_LINE_PX
  const takenPx = scale * (totalsPx + AROUND_PX + (cautioned ? CAUTION_PX : 0))
  return Math.max(FEWEST_LINES, Math.floor((roomPx - takenPx) / (scale * ROW_PX)) - 1)
}

const BudgetSteps = lazy(async () => ({ default: (await import('./BudgetSteps')).BudgetSteps }))

export function BudgetPane({ project, design, evaluation }: EvaluatedDesign) {
  const run = useFreshRuns('yield', project).get(design.id) ?? null
  const selection = useSelection(design)
  const notes = evaluation.validity.filter(({ caution }) => caution !== true)
  const totals = totalsOf(evaluation, run, leadingLimitDb(project.requirements))
  const [room, roomPx] = useRoom()
  const cautioned = notes.length < evaluation.validity.length
  return (
    <Pane name="Budget" title="Loss budget, dB">
      {room}
      <CautionList notes={evaluation.validity} />
      <BudgetTable
        lines={evaluation.lines}
        totals={totals}
        selectedId={selection.id}
        mostShown={roomPx === null ? evaluation.lines.length : fittingLines(roomPx, totals, cautioned)}
      />
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
