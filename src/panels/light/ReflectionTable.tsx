// What every face of the chain sends back, and the totals at both ends of the path.

import type { Evaluation } from '../../analysis/results/evaluation'
import { PATH_PORTS } from '../../analysis/results/lightResults'
import { returnLossText, totalReturnText as totalText } from '../../analysis/verdicts/lightVerdicts'
import { plainText } from '../../numerics/numberText'

const shareText = (reflectance: number) => (reflectance === 0 ? '0' : `${plainText(100 * reflectance, 3)} %`)

function elementName(evaluation: Evaluation, elementId: string): string {
  const joints = [...evaluation.joints, ...evaluation.relays].map((view) => view.elementId)
  const ids = [...new Set(joints)]
  return ids.length < 2 || !ids.includes(elementId) ? '' : `, joint ${ids.indexOf(elementId) + 1}`
}

export function ReflectionTable({ evaluation }: { readonly evaluation: Evaluation }) {
  const { reflections, returnLoss } = evaluation
  const back = (lossDb: number | null) => (lossDb === null ? '–' : returnLossText(lossDb))
  return (
    <div className="wide-table">
      <table>
        <caption>Return loss by face</caption>
        <thead>
          <tr>
            <th scope="col">Face</th>
            <th scope="col" className="number">
              Reflectance
            </th>
            <th scope="col" className="number">
              Local RL, fibre side
            </th>
            <th scope="col" className="number">
              Local RL, chip side
            </th>
            <th scope="col" className="number">
              RL referred to the fibre
            </th>
            <th scope="col" className="number">
              RL referred to the chip
            </th>
          </tr>
        </thead>
        <tbody>
          {reflections.map((row) => (
            <tr key={`${row.elementId} ${row.label}`} data-reflection={`${row.elementId}/${row.face}`}>
              <th scope="row">
                {row.label}
                {elementName(evaluation, row.elementId)}
                {row.note !== undefined && <span className="quiet"> ({row.note})</span>}
              </th>
              <td className="number">{shareText(row.reflectance)}</td>
              <td className="number">{back(row.intoNearDb)}</td>
              <td className="number">{back(row.intoFarDb)}</td>
              <td className="number">{back(row.atFibreDb)}</td>
              <td className="number">{back(row.atChipDb)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr data-total="Return loss">
            <th scope="row" colSpan={4}>
              Return loss, incoherent sum
            </th>
            {PATH_PORTS.map((port) => (
              <td key={port} className="number">
                {totalText(returnLoss[port], 'incoherentDb')}
              </td>
            ))}
          </tr>
          <tr data-total="Return loss in phase">
            <th scope="row" colSpan={4}>
              Return loss, coherent worst case
            </th>
            {PATH_PORTS.map((port) => (
              <td key={port} className="number">
                {totalText(returnLoss[port], 'coherentDb')}
              </td>
            ))}
          </tr>
        </tfoot>
      </table>
    </div>
  )
}
