// What to order for a candidate, and what to ask the suppliers.

import { useState } from 'react'
import { tableCsv } from '../../figures/table'
import type { Project } from '../../model/schema/project'
import { unbroken } from '../../numerics/numberText'
import { orderList } from '../../report/orderList'
import { ORDER_COLUMNS } from '../../report/sections/order'

export function OrderListView({
  project,
  candidateId,
}: {
  readonly project: Project
  readonly candidateId: string
}) {
  const [said, setSaid] = useState('')
  const list = orderList(project, candidateId)
  if (list === null) return null
  const used = ORDER_COLUMNS.filter(({ field }) => list.lines.some((line) => line[field] !== ''))
  const copy = () =>
    navigator.clipboard
      .writeText(
        tableCsv({
          columns: ORDER_COLUMNS.map(({ label }) => ({ label })),
          rows: list.lines.map((line) => ORDER_COLUMNS.map(({ field }) => line[field])),
        }),
      )
      .then(
        () => setSaid(`${list.lines.length} rows copied`),
        () => setSaid('Copy blocked by the browser'),
      )
  return (
    <section aria-label="Order list" className="order-list">
      <p className="paper-title">{project.name}</p>
      <h2>Order list, {list.name}</h2>
      <p className="screen-only figure-numbers">
        <button type="button" onClick={() => void copy()}>
          Copy as CSV
        </button>
        <span role="status">{said}</span>
      </p>
      <div className="wide-table">
        <table>
          <thead>
            <tr>
              {used.map(({ field, label }) => (
                <th key={field} scope="col">
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {list.lines.map((line) => (
              <tr key={`${line.part} ${line.notes}`}>
                {used.map(({ field }) =>
                  field === 'part' ? (
                    <th key={field} scope="row">
                      {unbroken(line[field])}
                    </th>
                  ) : (
                    <td key={field}>{unbroken(line[field])}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="quiet">{list.basis}</p>
      <h3>Questions for suppliers</h3>
      {list.questions.length === 0 ? (
        <p>None: no estimated values remain.</p>
      ) : (
        <ul>
          {list.questions.map((question) => (
            <li key={question}>{unbroken(question)}</li>
          ))}
        </ul>
      )}
    </section>
  )
}
