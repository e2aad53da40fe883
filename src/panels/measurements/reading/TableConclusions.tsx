// How the reader understood a text file. Kind, delimiter, decimal mark and roles can be set otherwise.

import {
  answersForKind,
  isTableKind,
  type ListReading,
  LOT_ROLES,
  type LotReading,
  TABLE_KINDS,
  type TableReading,
} from '../../../measure/index'
import { withUnitLabel } from '../../../model/quantity/units'
import { METHOD_NAMES } from '../../../model/words/measurement'
import { plainText } from '../../../numerics/numberText'
import { answerDoubts } from '../../../store/benchDesk'
import {
  CORE_UNIT_NAMES,
  DELIMITER_CHOICES,
  degrees,
  MARK_CHOICES,
  ownNotes,
  SCAN_NAMES,
} from '../measurementText'
import { AnswerSelect } from './AnswerSelect'
import { ColumnsTable } from './ColumnsTable'

const SCAN_CHOICES = ['angle', 'position', 'length', 'power', 'loss', 'other'].map((role) => ({
  value: role,
  label: role === 'other' ? 'not used' : role,
}))
const LOT_CHOICES = LOT_ROLES.map((role) => ({ value: role, label: role }))
const RANGE_DIGITS = 4

/** The kind by hand: the columns are read again as it needs them. */
const LOT = 'lot' as const
/** A lot with a column of exposure. */
const STRESS = 'stress' as const

function KindSelect({ reading }: { readonly reading: TableReading | LotReading }) {
  const isLot = reading.kind === 'lot'
  const counted = isLot ? reading.columns.findIndex(({ role }) => role === 'exposure') : -1
  const kind = !isLot ? reading.scanKind : counted < 0 ? LOT : STRESS
  return (
    <select
      aria-label="Kind"
      value={kind}
      onChange={(event) => {
        const chosen = TABLE_KINDS.find((each) => each === event.target.value)
        if (event.target.value === LOT && counted >= 0)
          answerDoubts({ kind: LOT, [`role:${counted}`]: 'not used' })
        else if (chosen === undefined) answerDoubts({ kind: LOT })
        else if (isLot) answerDoubts({ kind: 'scan' })
        else
          answerDoubts({
            kind: 'scan',
            ...answersForKind(reading.columns, chosen),
          })
      }}
    >
      {!isTableKind(kind) && kind !== LOT && kind !== STRESS && (
        <option value={kind}>{SCAN_NAMES[kind]}</option>
      )}
      {[...TABLE_KINDS, LOT, ...(kind === STRESS ? [STRESS] : [])].map((each) => (
        <option key={each} value={each}>
          {METHOD_NAMES[each]}
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

export function TableConclusions({ reading }: { readonly reading: TableReading | ListReading | LotReading }) {
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
          {reading.kind !== 'list' && reading.delimiter !== '' && (
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
      {reading.kind === 'lot' && <ColumnsTable columns={reading.columns} choices={LOT_CHOICES} />}
      {reading.kind === 'table' && reading.columns.length > 0 && (
        <ColumnsTable columns={reading.columns} choices={SCAN_CHOICES} rangeText={rangeText} />
      )}
    </>
  )
}
