// Candidates as columns, quantities as rows in groups; sorted by any row, against a baseline if one is pinned.

import { Fragment } from 'react'
import {
  type Cell,
  type Comparison,
  type ComparisonColumn,
  type ComparisonRow,
  ROW_GROUPS,
} from '../../analysis/compare/comparison'
import { issueText } from '../../model/issue'
import type { CompareView } from './compareView'

const SIGNS = { met: '✓', 'not met': '✕', 'not known': '?' } as const
/** Differences below this share of the last digit are rounding. */
const SAME = 0.5
const LONG_REASON = 200

function difference(cell: Cell, base: Cell | undefined, row: ComparisonRow): string | null {
  if (cell.value === null || base?.value == null) return null
  const change = cell.value - base.value
  if (Math.abs(change) < SAME * 10 ** -row.digits) return '='
  return `${change > 0 ? '+' : '−'}${Math.abs(change).toFixed(row.digits)}`
}

/** Whether a cell holds the best number of its row. */
function isBest(cell: Cell, row: ComparisonRow, shown: readonly number[]): boolean {
  if (row.better === null || cell.value === null || shown.length < 2) return false
  const values = shown.flatMap((at) => row.cells[at]?.value ?? [])
  const best = row.better === 'lower' ? Math.min(...values) : Math.max(...values)
  return cell.value === best && new Set(values).size > 1
}

/** Whether the shown candidates say different things in a row. */
function differs(row: ComparisonRow, shown: readonly number[]): boolean {
  return new Set(shown.map((at) => `${row.cells[at]?.text} ${row.cells[at]?.reason ?? ''}`)).size > 1
}

/** Why a cell says what it says; a long reason opens on demand, so that the row stays a row. */
function Reason({ text }: { readonly text: string }) {
  if (text.length <= LONG_REASON) return <span className="quiet compare-reason">{text}</span>
  return (
    <details className="quiet compare-reason">
      <summary>why</summary>
      {text}
    </details>
  )
}

function CellView({
  row,
  at,
  shown,
  baseAt,
}: {
  readonly row: ComparisonRow
  readonly at: number
  readonly shown: readonly number[]
  readonly baseAt: number
}) {
  const cell = row.cells[at]
  if (cell === undefined || cell.text === '') return <td className="quiet">–</td>
  if (cell.status !== undefined) {
    return (
      <td data-status={cell.status} className="compare-verdict">
        <span aria-hidden="true">{SIGNS[cell.status]}</span> <strong>{cell.status}</strong>
        <Reason text={cell.reason ?? ''} />
      </td>
    )
  }
  const change = baseAt >= 0 && at !== baseAt ? difference(cell, row.cells[baseAt], row) : null
  const best = isBest(cell, row, shown)
  return (
    <td className={cell.value === null ? undefined : 'compare-number'}>
      {best ? <strong>{cell.text}</strong> : cell.text}
      {change !== null && <span className="quiet compare-change">{change}</span>}
      {cell.reason !== undefined && cell.reason !== '' && <Reason text={cell.reason} />}
    </td>
  )
}

function ColumnHead({ column, view }: { readonly column: ComparisonColumn; readonly view: CompareView }) {
  const { candidateId, name, met, notMet, notKnown } = column
  const pinned = view.baselineId === candidateId
  return (
    <th scope="col" aria-label={name} className="compare-head">
      <button type="button" className="compare-name" onClick={() => view.open(candidateId)}>
        {name}
      </button>
      <span className="quiet">
        {met} met, {notMet} not met, {notKnown} not known
      </span>
      <span className="compare-actions">
        <button
          type="button"
          aria-pressed={pinned}
          aria-label={`${pinned ? 'Unpin' : 'Pin'} ${name} as the baseline`}
          onClick={() => view.pin(pinned ? '' : candidateId)}
        >
          {pinned ? 'Baseline' : 'Pin'}
        </button>
        <button type="button" aria-label={`Duplicate ${name}`} onClick={() => view.duplicate(candidateId)}>
          Duplicate
        </button>
        <button type="button" aria-label={`Hide ${name}`} onClick={() => view.hide(candidateId)}>
          Hide
        </button>
      </span>
    </th>
  )
}

const unitOf = (row: ComparisonRow) =>
  row.unit !== '' && <span className="quiet compare-unit"> {row.unit}</span>

export function ComparisonTable({
  comparison,
  view,
}: {
  readonly comparison: Comparison
  readonly view: CompareView
}) {
  const { columns } = comparison
  const { shown } = view
  const rows = view.onlyDiffering ? comparison.rows.filter((row) => differs(row, shown)) : comparison.rows
  const baseAt = columns.findIndex((column) => column.candidateId === view.baselineId)
  return (
    <section className="compare-scroll" aria-label="Comparison">
      <table className="compare">
        <thead>
          <tr>
            <th scope="col">
              <span className="visually-hidden">Quantity</span>
            </th>
            {shown.map((at) => {
              const column = columns[at]
              return (
                column !== undefined && <ColumnHead key={column.candidateId} column={column} view={view} />
              )
            })}
          </tr>
        </thead>
        <tbody>
          {columns.some((column) => column.issues.length > 0) && (
            <tr>
              <th scope="row" className="compare-label">
                Cannot be computed
              </th>
              {shown.map((at) => (
                <td key={columns[at]?.candidateId} className="complaint">
                  {columns[at]?.issues.map(issueText).join(' ')}
                </td>
              ))}
            </tr>
          )}
          {ROW_GROUPS.map((group) => {
            const own = rows.filter((row) => row.group === group)
            if (own.length === 0) return null
            return (
              <Fragment key={group}>
                <tr className="compare-group">
                  <th scope="rowgroup" colSpan={shown.length + 1}>
                    <span>{group}</span>
                  </th>
                </tr>
                {own.map((row) => (
                  <tr key={row.id} data-row={row.id}>
                    <th
                      scope="row"
                      className="compare-label"
                      aria-sort={view.sort?.rowId === row.id ? view.sort.order : undefined}
                    >
                      {row.better === null ? (
                        <>
                          {row.label}
                          {unitOf(row)}
                        </>
                      ) : (
                        <button
                          type="button"
                          className="compare-sort"
                          aria-label={`Sort by ${row.label} ${row.unit}`.trim()}
                          onClick={() => view.sortBy(row.id)}
                        >
                          {row.label}
                          {unitOf(row)}
                          {view.sort?.rowId === row.id && (view.sort.order === 'ascending' ? ' →' : ' ←')}
                        </button>
                      )}
                    </th>
                    {shown.map((at) => (
                      <CellView key={at} row={row} at={at} shown={shown} baseAt={baseAt} />
                    ))}
                  </tr>
                ))}
              </Fragment>
            )
          })}
        </tbody>
      </table>
    </section>
  )
}
