// The tolerances that would explain a lot, and their return into the project as measured ones.

import { useState } from 'react'
import type { ExplainedTolerance, LotExplanation } from '../../../analysis/production/explainLot'
import { quantityAt, scaleTolerance } from '../../../model/quantity/quantityAt'
import { withUnitLabel } from '../../../model/quantity/units'
import type { MeasurementOf } from '../../../model/schema/measurement'
import { fixedText, plainText } from '../../../numerics/numberText'
import { editProject } from '../../../store/workbench'

const NOTE_CHARACTERS = 4000

const widthText = (plusMinus: number, unit: string) =>
  `± ${withUnitLabel(plainText(plusMinus, 3), unit)}`.trim()
const rangeText = ({ factor, low, high }: ExplainedTolerance) =>
  `${fixedText(factor, 2)} (${fixedText(low, 2)} to ${fixedText(high, 2)})`
const isMeasured = ({ verdict }: ExplainedTolerance) => verdict === 'wider' || verdict === 'tighter'

/** Scales the tolerances that the lot shows to differ from the stated ones, and notes it: one edit. */
function apply(found: LotExplanation, { name, date }: MeasurementOf<'lot'>): void {
  editProject((draft) => {
    for (const tolerance of found.tolerances.filter(isMeasured)) {
      const quantity = quantityAt(draft, tolerance.path)
      if (quantity === undefined) continue
      scaleTolerance(quantity, tolerance.factor)
      const mark = `Tolerance measured on ${name}, ${date}: ${rangeText(tolerance)} times the stated ${widthText(tolerance.plusMinus, tolerance.unit)}.`
      quantity.note = [mark, quantity.note ?? ''].join(' ').trim().slice(0, NOTE_CHARACTERS)
    }
  })
}

export function ExplainedTolerances({
  found,
  measurement,
  isStale,
}: {
  readonly found: LotExplanation
  readonly measurement: MeasurementOf<'lot'>
  readonly isStale: boolean
}) {
  const [said, setSaid] = useState('')
  const measured = found.tolerances.filter(isMeasured)
  if (found.tolerances.length === 0)
    return <p className="quiet">No tolerance of this design affects the loss: there is nothing to fit.</p>
  return (
    <>
      <div className="wide-table">
        <table data-table="lot-tolerances">
          <caption>Tolerances that would explain the lot</caption>
          <thead>
            <tr>
              <th scope="col">Tolerance</th>
              <th scope="col" className="number">
                Stated
              </th>
              <th scope="col" className="number">
                Factor, 95 % interval
              </th>
              <th scope="col" className="number">
                From the lot
              </th>
              <th scope="col">Verdict</th>
            </tr>
          </thead>
          <tbody>
            {found.tolerances.map((tolerance) => (
              <tr key={tolerance.path.join('/')}>
                <th scope="row">{tolerance.label}</th>
                <td className="number">{widthText(tolerance.plusMinus, tolerance.unit)}</td>
                <td className="number">{rangeText(tolerance)}</td>
                <td className="number">
                  {widthText(tolerance.plusMinus * tolerance.factor, tolerance.unit)}
                </td>
                <td>{tolerance.verdict}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="quiet">
        From {found.simulatedLots} simulated lots, all listed tolerances varied together (prior: factor 1,
        with a standard deviation of a factor of 2). Not distinguishable: the lot leaves the prior almost
        unchanged.
        {found.heldCount > 0 && ` Tolerances with little effect, kept as stated: ${found.heldCount}.`} Nominal
        values are taken as stated: a systematic offset appears as a wider tolerance.
      </p>
      {measured.length > 0 && (
        <button
          type="button"
          disabled={isStale}
          onClick={() => {
            apply(found, measurement)
            setSaid('Applied and marked as measured in their notes. Undo restores the stated tolerances.')
          }}
        >
          Apply {measured.length === 1 ? '1 measured tolerance' : `${measured.length} measured tolerances`}
        </button>
      )}{' '}
      <span role="status" className="quiet">
        {said}
      </span>
    </>
  )
}
