// The columns of a table and what each is read as; the range of their values where it is known.

import { AnswerSelect } from './AnswerSelect'

interface ShownColumn {
  readonly label: string
  readonly role: string
  readonly unit?: string | null
}

export function ColumnsTable<Column extends ShownColumn>({
  columns,
  choices,
  rangeText,
}: {
  readonly columns: readonly Column[]
  readonly choices: readonly { readonly value: string; readonly label: string }[]
  readonly rangeText?: (column: Column) => string
}) {
  return (
    <table className="conclusions">
      <caption>Columns</caption>
      <thead>
        <tr>
          <th scope="col">Heading</th>
          <th scope="col">Read as</th>
          <th scope="col">File unit</th>
          {rangeText !== undefined && (
            <th scope="col" className="number">
              Range
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {columns.map((column, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place, headings may repeat
          <tr key={i}>
            <th scope="row">{column.label || `Column ${i + 1}`}</th>
            <td>
              <AnswerSelect
                label={`Column ${i + 1} is`}
                value={column.role}
                choices={choices}
                answers={`role:${i}`}
              />
            </td>
            <td>{column.unit ?? 'none'}</td>
            {rangeText !== undefined && <td className="number">{rangeText(column)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
