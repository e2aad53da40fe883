// The numbers behind a figure, shown on request, copied or saved, and the figure saved as a picture. Quiet until needed.

import { useState } from 'react'
import { columnTitle, type Figure, type FigureTable } from '../../figures/figure'
import { cellText, tableCsv } from '../../figures/table'
import { download, fileStem } from './download'
import { PICTURE_FORMATS, type PictureFormat, pictureOf } from './figureFiles'
import './figure.css'

/** A table on the screen ends here; the copy holds every row. */
const MOST_ROWS = 250
const FORMATS = Object.keys(PICTURE_FORMATS) as readonly PictureFormat[]

function Numbers({ table }: { readonly table: FigureTable }) {
  const heads = table.columns.map(columnTitle)
  return (
    <section className="figure-table" aria-label="Figure data">
      <table>
        <thead>
          <tr>
            {heads.map((title) => (
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
                <td key={heads[column]} className="number">
                  {cellText(cell)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {table.rows.length > MOST_ROWS && (
        <p>{`Showing the first ${MOST_ROWS} of ${table.rows.length} rows; the CSV contains all rows.`}</p>
      )}
    </section>
  )
}

export function FigureTools({ figure }: { readonly figure: Figure }) {
  const [open, setOpen] = useState(false)
  const [message, setMessage] = useState('')
  const { table, sentence } = figure
  const copy = () =>
    navigator.clipboard.writeText(tableCsv(table)).then(
      () => setMessage(`${table.rows.length} ${table.rows.length === 1 ? 'row' : 'rows'} copied`),
      () => setMessage('Copy blocked by the browser'),
    )
  const saveAs = (content: Blob, ending: string) => {
    const url = URL.createObjectURL(content)
    download(url, `${fileStem(sentence)}.${ending}`)
    URL.revokeObjectURL(url)
  }
  const savePicture = async (format: PictureFormat) => {
    const { make, mediaType } = PICTURE_FORMATS[format]
    const content = await make(pictureOf(figure))
    saveAs(typeof content === 'string' ? new Blob([content], { type: mediaType }) : content, format)
  }
  return (
    <div className="figure-tools">
      <button type="button" className="subtle" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? 'Hide table' : 'Show as table'}
      </button>
      <button type="button" className="subtle" onClick={() => void copy()}>
        Copy as CSV
      </button>
      <span className="quiet">Save as</span>
      <button
        type="button"
        className="subtle"
        aria-label="Save as CSV"
        onClick={() => saveAs(new Blob([tableCsv(table)], { type: 'text/csv' }), 'csv')}
      >
        CSV
      </button>
      {FORMATS.map((format) => (
        <button
          key={format}
          type="button"
          className="subtle"
          aria-label={`Save as ${format.toUpperCase()}`}
          onClick={() =>
            savePicture(format).catch(() => setMessage('This browser could not export the image.'))
          }
        >
          {format.toUpperCase()}
        </button>
      ))}
      <span role="status">{message}</span>
      {open && <Numbers table={table} />}
    </div>
  )
}
