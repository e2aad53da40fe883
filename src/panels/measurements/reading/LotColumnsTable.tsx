// The columns of a lot table and what each is read as.

import { LOT_ROLES, type LotReading } from '../../../measure/index'
import { AnswerSelect } from './AnswerSelect'

const CHOICES = LOT_ROLES.map((role) => ({ value: role, label: role }))

export function LotColumnsTable({ columns }: Pick<LotReading, 'columns'>) {
  return (
    <table className="conclusions">
      <caption>Columns</caption>
      <thead>
        <tr>
          <th scope="col">Heading</th>
          <th scope="col">Read as</th>
          <th scope="col">File unit</th>
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
                choices={CHOICES}
                answers={`role:${i}`}
              />
            </td>
            <td>{column.unit ?? 'none'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
