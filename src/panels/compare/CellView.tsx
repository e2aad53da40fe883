// One number or verdict of one design. The full reason is a tooltip; shown below the value where reasons are requested.

import type { ComparisonCell, ComparisonRow } from '../../analysis/compare/comparison'
import { STATUS_MARKS, statusText } from '../../analysis/results/verdict'
import { signedText } from '../../numerics/numberText'
import { Tooltip } from '../../ui/controls/Tooltip'

/** Differences below this share of the last digit are rounding. */
const SAME = 0.5

function difference(
  cell: ComparisonCell,
  base: ComparisonCell | undefined,
  row: ComparisonRow,
): string | null {
  if (cell.value === null || base?.value == null) return null
  const change = cell.value - base.value
  if (Math.abs(change) < SAME * 10 ** -row.digits) return '='
  return signedText(change, row.digits)
}

/** Whether a cell holds the best number of its row. */
function isBest(cell: ComparisonCell, row: ComparisonRow, shown: readonly number[]): boolean {
  if (row.better === null || cell.value === null || shown.length < 2) return false
  const values = shown.flatMap((at) => row.cells[at]?.value ?? [])
  const best = row.better === 'lower' ? Math.min(...values) : Math.max(...values)
  return cell.value === best && new Set(values).size > 1
}

/** What is said in place of a value. */
const MISSING = ['not evaluated', 'not known']

/** Whether the shown designs say different things in a row. */
export function differs(row: ComparisonRow, shown: readonly number[]): boolean {
  return new Set(shown.map((at) => `${row.cells[at]?.text} ${row.cells[at]?.reason ?? ''}`)).size > 1
}

interface CellPosition {
  readonly row: ComparisonRow
  readonly at: number
  readonly shown: readonly number[]
  readonly baseAt: number
  readonly className: string | undefined
  readonly reasonsShown: boolean
  /** The number that a verdict rests on, in its shortest form; empty where it has none. */
  readonly verdictValue: string
}

/** Asked for by resting on the value or by moving the focus to it. */
function WithReason({ reason, children }: { readonly reason: string; readonly children: React.ReactNode }) {
  return (
    <Tooltip text={reason}>
      <button type="button" className="compare-why">
        {children}
      </button>
    </Tooltip>
  )
}

function VerdictCell({ cell, position }: { readonly cell: ComparisonCell; readonly position: CellPosition }) {
  const { className, reasonsShown, verdictValue } = position
  const status = cell.status ?? 'not known'
  const reason = cell.reason ?? ''
  const words = (
    <>
      <span aria-hidden="true" className="compare-sign">
        {STATUS_MARKS[status]}
      </span>{' '}
      {verdictValue === '' ? (
        statusText(status)
      ) : (
        <>
          {verdictValue}
          <span className="visually-hidden"> {statusText(status)}</span>
        </>
      )}
    </>
  )
  return (
    <td data-status={status} className={['compare-verdict', className ?? ''].join(' ').trim()}>
      {reasonsShown || reason === '' || status === 'met' ? (
        words
      ) : (
        <WithReason reason={reason}>{words}</WithReason>
      )}
      {reasonsShown && reason !== '' && <span className="compare-reason">{reason}</span>}
    </td>
  )
}

export function CellView(position: CellPosition) {
  const { row, at, shown, baseAt, className, reasonsShown } = position
  const cell = row.cells[at]
  if (cell === undefined || cell.text === '') {
    return <td className={['quiet', className ?? ''].join(' ').trim()}>–</td>
  }
  if (cell.status !== undefined) return <VerdictCell cell={cell} position={position} />
  const change = baseAt >= 0 && at !== baseAt ? difference(cell, row.cells[baseAt], row) : null
  const number = isBest(cell, row, shown) ? <strong>{cell.text}</strong> : cell.text
  const reason = cell.reason ?? ''
  const look = MISSING.includes(cell.text) ? 'quiet' : cell.provisional ? 'provisional' : ''
  return (
    <td className={[className ?? '', look].join(' ').trim() || undefined}>
      {reason === '' || reasonsShown ? number : <WithReason reason={reason}>{number}</WithReason>}
      {change !== null && <span className="quiet compare-change">{change}</span>}
      {reasonsShown && reason !== '' && <span className="compare-reason">{reason}</span>}
    </td>
  )
}
