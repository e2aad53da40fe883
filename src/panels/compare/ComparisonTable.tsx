// Designs as columns: pictures first, then quantities as rows in groups; sorted by any row, against a baseline if one is chosen.

import { Fragment } from 'react'
import { type Comparison, type ComparisonRow, ROW_GROUPS } from '../../analysis/compare/comparison'
import { issueText } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { type Chip, chipOf } from '../../ui/text/verdictChip'
import { CellView, differs } from './CellView'
import { ColumnHead } from './ColumnHead'
import type { CompareView } from './compareView'
import { Pictures, type ShownDesign } from './Pictures'

const unitOf = (row: ComparisonRow) => row.unit !== '' && <span className="quiet">, {row.unit}</span>

function RowHead({
  row,
  view,
  label,
}: {
  readonly row: ComparisonRow
  readonly view: CompareView
  readonly label: string
}) {
  const order = view.sort?.rowId === row.id ? view.sort.order : undefined
  const words = (
    <>
      {label}
      {unitOf(row)}
    </>
  )
  return (
    <th scope="row" aria-sort={order} title={label === row.label ? undefined : row.label}>
      {row.better === null ? (
        words
      ) : (
        <button
          type="button"
          className="compare-sort"
          aria-label={`Sort by ${row.label} ${row.unit}`.trim()}
          onClick={() => view.sortBy(row.id)}
        >
          {words}
          {order !== undefined && <span aria-hidden="true">{order === 'ascending' ? ' →' : ' ←'}</span>}
        </button>
      )}
    </th>
  )
}

export function ComparisonTable({
  project,
  comparison,
  view,
  designs,
  limitDb,
}: {
  readonly project: Project
  readonly comparison: Comparison
  readonly view: CompareView
  /** In the order of `view.shown`. */
  readonly designs: readonly ShownDesign[]
  readonly limitDb: number
}) {
  const { columns } = comparison
  const { shown } = view
  const rows = view.onlyDiffering ? comparison.rows.filter((row) => differs(row, shown)) : comparison.rows
  const baseAt = columns.findIndex((column) => column.candidateId === view.baselineId)
  const classOf = (designId: string) => (designId === view.markedId ? 'compare-marked' : undefined)
  const chipAt = (row: ComparisonRow, at: number): Chip | null => {
    const verdict = row.cells[at]?.verdict
    return verdict === undefined ? null : chipOf(verdict, project)
  }
  /** A requirement in its shortest form, as the strip above shows it. */
  const labelOf = (row: ComparisonRow): string => {
    const chip = shown.map((at) => chipAt(row, at)).find((each) => each !== null)
    return chip == null ? row.label : `${chip.name} ${chip.limit}`.trim()
  }
  return (
    <table
      className="compare"
      aria-label="Comparison"
      style={{ '--designs': shown.length } as React.CSSProperties}
    >
      <colgroup>
        <col className="compare-labels" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">
            <span className="visually-hidden">Quantity</span>
          </th>
          {shown.map((at) => {
            const column = columns[at]
            if (column === undefined) return null
            const { candidateId } = column
            return (
              <ColumnHead key={candidateId} column={column} view={view} className={classOf(candidateId)} />
            )
          })}
        </tr>
      </thead>
      <Pictures project={project} designs={designs} limitDb={limitDb} columnClass={classOf} />
      <tbody>
        {columns.some((column) => column.issues.length > 0) && (
          <tr className="compare-issues">
            <th scope="row">Cannot be evaluated</th>
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
                <th scope="rowgroup">{group}</th>
                {shown.map((at) => (
                  <td key={at} className={classOf(columns[at]?.candidateId ?? '')} />
                ))}
              </tr>
              {own.map((row) => (
                <tr key={row.id} data-row={row.id}>
                  <RowHead row={row} view={view} label={labelOf(row)} />
                  {shown.map((at) => (
                    <CellView
                      key={at}
                      row={row}
                      at={at}
                      shown={shown}
                      baseAt={baseAt}
                      className={classOf(columns[at]?.candidateId ?? '')}
                      reasonsShown={view.reasonsShown}
                      verdictValue={chipAt(row, at)?.value ?? ''}
                    />
                  ))}
                </tr>
              ))}
            </Fragment>
          )
        })}
      </tbody>
    </table>
  )
}
