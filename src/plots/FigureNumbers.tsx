// The numbers behind a figure, shown on request, copied or saved as CSV; what else the figure can be saved as stands beside.

import { type ReactNode, useState } from 'react'
import { download, fileStem } from './download'
import { cellText, type FigureTable, tableCsv } from './figureTable'
import './plot.css'

/** A table on the screen ends here; the copy holds every row. */
const MOST_ROWS = 250

export function FigureNumbers({
  table,
  name = 'numbers',
  children,
}: {
  readonly table: FigureTable
  /** What the saved file is named after. */
  readonly name?: string
  readonly children?: ReactNode
}) {
  const [open, setOpen] = useState(false)
  const [said, setSaid] = useState('')
  const copy = () =>
    navigator.clipboard.writeText(tableCsv(table)).then(
      () => setSaid(`${table.rows.length} rows copied`),
      () => setSaid('the browser refused to copy'),
    )
  const save = () => {
    const url = URL.createObjectURL(new Blob([tableCsv(table)], { type: 'text/csv' }))
    download(url, `${fileStem(name)}.csv`)
    URL.revokeObjectURL(url)
  }
  return (
    <div className="figure-numbers">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? 'Hide table' : 'Show as table'}
      </button>
      <button type="button" onClick={() => void copy()}>
        Copy as CSV
      </button>
      <span className="save-as">Save as</span>
      <button type="button" aria-label="Save as CSV" onClick={save}>
        CSV
      </button>
      {children}
      <span role="status">{said}</span>
      {open && (
        <section className="figure-table" aria-label="Numbers of the figure">
          <table>
            <thead>
              <tr>
                {table.head.map((title) => (
                  <th key={title} scope="col" className="number">
                    {title}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.slice(0, MOST_ROWS).map((row) => (
                <tr key={row.join()}>
                  {row.map((cell, column) => (
                    <td key={table.head[column]} className="number">
                      {cellText(cell)}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
          {table.rows.length > MOST_ROWS && (
            <p>{`The first ${MOST_ROWS} of ${table.rows.length} rows; the copy holds them all.`}</p>
          )}
        </section>
      )}
    </div>
  )
}
