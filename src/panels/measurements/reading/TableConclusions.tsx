// How the reader understood a text file. Kind, delimiter, decimal mark and roles can be set otherwise.

import {
  answersForKind,
  isTableKind,
  type ListReading,
  TABLE_KINDS,
  type TableReading,
} from '../../../measure/index'
import { withUnitLabel } from '../../../model/quantity/units'
import { plainText } from '../../../numerics/numberText'
import { answerDoubt, answerDoubts } from '../../../store/benchDesk'
import {
  CORE_UNIT_NAMES,
  DELIMITER_CHOICES,
  degrees,
  MARK_CHOICES,
  ownNotes,
  SCAN_NAMES,
} from '../measurementText'

const ROLES = ['angle', 'position', 'length', 'power', 'loss', 'other'] as const
const RANGE_DIGITS = 4

function AnswerSelect({
  label,
  value,
  choices,
  answers,
}: {
  readonly label: string
  readonly value: string
  readonly choices: readonly { readonly value: string; readonly label: string }[]
  /** Id of the answer that a choice gives. */
  readonly answers: string
}) {
  return (
    <select aria-label={label} value={value} onChange={(event) => answerDoubt(answers, event.target.value)}>
      {choices.map((choice) => (
        <option key={choice.value} value={choice.value}>
          {choice.label}
        </option>
      ))}
    </select>
  )
}

/** The kind by hand: the columns are read again as it needs them. */
function KindSelect({ reading }: { readonly reading: TableReading }) {
  const known = isTableKind(reading.scanKind)
  return (
    <select
      aria-label="Kind"
      value={reading.scanKind}
      onChange={(event) => {
        const kind = TABLE_KINDS.find((each) => each === event.target.value)
        if (kind !== undefined) answerDoubts(answersForKind(reading.columns, kind))
      }}
    >
      {!known && <option value={reading.scanKind}>{SCAN_NAMES[reading.scanKind]}</option>}
      {TABLE_KINDS.map((kind) => (
        <option key={kind} value={kind}>
          {SCAN_NAMES[kind]}
        </option>
      ))}
    </select>
  )
}

function rangeText({ low, high, coreUnit }: TableReading['columns'][number]): string {
  const shown = (value: number) => plainText(coreUnit === 'rad' ? degrees(value) : value, RANGE_DIGITS)
  const unit = coreUnit === 'rad' ? '°' : CORE_UNIT_NAMES[coreUnit]
  return withUnitLabel(`${shown(low)} to ${shown(high)}`, unit)
}

export function TableConclusions({ reading }: { readonly reading: TableReading | ListReading }) {
  return (
    <>
      <table className="conclusions">
        <caption>File interpretation</caption>
        <tbody>
          <tr>
            <th scope="row">Kind</th>
            <td>{reading.kind === 'list' ? 'Repeated readings' : <KindSelect reading={reading} />}</td>
          </tr>
          <tr>
            <th scope="row">Rows read</th>
            <td>{reading.rowsRead}</td>
          </tr>
          {reading.kind === 'table' && reading.delimiter !== '' && (
            <tr>
              <th scope="row">Delimiter</th>
              <td>
                <AnswerSelect
                  label="Delimiter"
                  value={reading.delimiter}
                  choices={DELIMITER_CHOICES}
                  answers="delimiter"
                />
              </td>
            </tr>
          )}
          <tr>
            <th scope="row">Decimal mark</th>
            <td>
              <AnswerSelect
                label="Decimal mark"
                value={reading.decimalMark}
                choices={MARK_CHOICES}
                answers="decimal-mark"
              />
            </td>
          </tr>
          {ownNotes(reading).map((note) => (
            <tr key={note}>
              <th scope="row">Note</th>
              <td>{note}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {reading.kind === 'table' && reading.columns.length > 0 && (
        <table className="conclusions">
          <caption>Columns</caption>
          <thead>
            <tr>
              <th scope="col">Heading</th>
              <th scope="col">Read as</th>
              <th scope="col">File unit</th>
              <th scope="col" className="number">
                Range
              </th>
            </tr>
          </thead>
          <tbody>
            {reading.columns.map((column, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place, headings may repeat
              <tr key={i}>
                <th scope="row">{column.label || `Column ${i + 1}`}</th>
                <td>
                  <AnswerSelect
                    label={`Column ${i + 1} is`}
                    value={column.role}
                    choices={ROLES.map((role) => ({
                      value: role,
                      label: role === 'other' ? 'not used' : role,
                    }))}
                    answers={`role:${i}`}
                  />
                </td>
                <td>{column.unit ?? 'none'}</td>
                <td className="number">{rangeText(column)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  )
}
