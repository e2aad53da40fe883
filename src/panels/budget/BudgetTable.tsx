// The budget: the lines that matter with a bar each, the others folded into one, and the totals. A click on a line
// selects its element everywhere.

import { useState } from 'react'
import type { BudgetLine } from '../../analysis/results/evaluation'
import { lossText } from '../../model/quantity/lossText'
import { unbroken } from '../../numerics/numberText'
import { selectElement } from '../../store/view'
import { rove } from '../../ui/controls/roving'
import { Tooltip } from '../../ui/controls/Tooltip'
import { foldedLines, foldText } from './foldedLines'
import type { Total } from './totals'

/** What the arrow keys go along: the names of the lines. */
const ROVED = '.budget-name'

function Bar({ lossDb, mostDb }: { readonly lossDb: number; readonly mostDb: number }) {
  const share = mostDb > 0 ? Math.min(1, Math.abs(lossDb) / mostDb) : 0
  return (
    <span className="budget-bar" data-gain={lossDb < 0} aria-hidden="true">
      <span style={{ inlineSize: `${100 * share}%` }} />
    </span>
  )
}

function Line({
  line,
  mostDb,
  selectedId,
  isStop,
}: {
  readonly line: BudgetLine
  /** Whether Tab stops at it; arrows go on from there. */
  readonly isStop: boolean
  readonly mostDb: number
  readonly selectedId: string
}) {
  const button = (
    <button
      type="button"
      className="budget-name"
      tabIndex={isStop ? 0 : -1}
      aria-pressed={line.elementId === selectedId}
      onClick={() => selectElement(line.elementId)}
    >
      {unbroken(line.label)}
    </button>
  )
  return (
    <tr data-line={line.id} data-selected={line.elementId === selectedId}>
      <th scope="row">{line.note === undefined ? button : <Tooltip text={line.note}>{button}</Tooltip>}</th>
      <td className="number">{lossText(line.lossDb)}</td>
      <td className="budget-share">
        <Bar lossDb={line.lossDb} mostDb={mostDb} />
      </td>
      <td className="budget-source">{line.provenance}</td>
    </tr>
  )
}

export function BudgetTable({
  lines,
  totals,
  selectedId,
  mostShown,
}: {
  readonly lines: readonly BudgetLine[]
  readonly totals: readonly Total[]
  readonly selectedId: string
  /** Lines that there is space for next to the folded one. */
  readonly mostShown: number
}) {
  const [unfolded, setUnfolded] = useState(false)
  const folding = foldedLines(lines, mostShown)
  const folded = lines.filter((line) => folding.has(line))
  const folds = folded.length > 0
  const shown = unfolded ? lines : lines.filter((line) => !folding.has(line))
  const mostDb = Math.max(0, ...lines.map(({ lossDb }) => Math.abs(lossDb)))
  const stop = shown.find(({ elementId }) => elementId === selectedId) ?? shown[0]
  return (
    <table className="budget" onKeyDown={(event) => rove(event, ROVED)}>
      <caption className="visually-hidden">Loss budget</caption>
      <thead className="visually-hidden">
        <tr>
          <th scope="col">Contribution</th>
          <th scope="col">Loss, dB</th>
          <th scope="col">Share</th>
          <th scope="col">Source</th>
        </tr>
      </thead>
      <tbody>
        {shown.map((line) => (
          <Line
            key={line.id}
            line={line}
            mostDb={mostDb}
            selectedId={selectedId}
            isStop={line.id === stop?.id}
          />
        ))}
        {folds && (
          <tr data-line="folded">
            <th scope="row">
              <button
                type="button"
                className="budget-name budget-fold"
                tabIndex={-1}
                aria-expanded={unfolded}
                onClick={() => setUnfolded(!unfolded)}
              >
                {unfolded ? 'Group small contributions' : foldText(folded)}
              </button>
            </th>
            <td className="number">
              {unfolded ? '' : lossText(folded.reduce((sum, { lossDb }) => sum + lossDb, 0))}
            </td>
            <td className="budget-share" />
            <td className="budget-source" />
          </tr>
        )}
      </tbody>
      <tfoot>
        {totals.map(({ label, lossDb, note, main, provisional }) => (
          <tr key={label} data-total={label} data-main={main}>
            <th scope="row">{label}</th>
            <td className={provisional ? 'number provisional' : 'number'}>{lossText(lossDb)}</td>
            <td colSpan={2} className="budget-note">
              {unbroken(note)}
            </td>
          </tr>
        ))}
      </tfoot>
    </table>
  )
}
