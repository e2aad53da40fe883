// What every face of the chain sends back, and the totals at the fibre.

import type { Evaluation } from '../../analysis/results/evaluation'
import { returnLossText } from '../../analysis/verdicts/lightVerdicts'

const shareText = (reflectance: number) =>
  reflectance === 0 ? '0' : `${Number((100 * reflectance).toPrecision(3))} %`

function placeName(evaluation: Evaluation, elementId: string): string {
  const joints = [...evaluation.joints, ...evaluation.relays].map((view) => view.elementId)
  const ids = [...new Set(joints)]
  return ids.length < 2 || !ids.includes(elementId) ? '' : `, joint ${ids.indexOf(elementId) + 1}`
}

export function ReflectionTable({ evaluation }: { readonly evaluation: Evaluation }) {
  const { reflections, returnLossDb, coherentReturnLossDb } = evaluation
  const back = (lossDb: number | null) => (lossDb === null ? '–' : returnLossText(lossDb))
  return (
    <div className="wide-table">
      <table>
        <caption>Reflections, as return loss</caption>
        <thead>
          <tr>
            <th scope="col">Face</th>
            <th scope="col" className="number">
              Reflects
            </th>
            <th scope="col" className="number">
              To the fibre side
            </th>
            <th scope="col" className="number">
              To the chip side
            </th>
            <th scope="col" className="number">
              At the fibre
            </th>
          </tr>
        </thead>
        <tbody>
          {reflections.map((row) => (
            <tr key={`${row.elementId} ${row.label}`} data-reflection={`${row.elementId}/${row.face}`}>
              <th scope="row">
                {row.label}
                {placeName(evaluation, row.elementId)}
                {row.note !== undefined && <span className="quiet"> ({row.note})</span>}
              </th>
              <td className="number">{shareText(row.reflectance)}</td>
              <td className="number">{back(row.intoNearDb)}</td>
              <td className="number">{back(row.intoFarDb)}</td>
              <td className="number">{back(row.atFibreDb)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr data-total="Return loss">
            <th scope="row" colSpan={4}>
              Return loss, powers added
            </th>
            <td className="number">{returnLossText(returnLossDb)}</td>
          </tr>
          <tr data-total="Return loss in phase">
            <th scope="row" colSpan={4}>
              The least it can be, all faces in phase
            </th>
            <td className="number">{returnLossText(coherentReturnLossDb)}</td>
          </tr>
        </tfoot>
      </table>
    </div>
  )
}
