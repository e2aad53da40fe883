// The budget of one candidate: a line each, with its share as a bar, and the totals below.

import type { Evaluation } from '../../analysis/evaluation'
import { lossText, percentText, throughputText } from './numbers'

function ShareBar({ share }: { readonly share: number }) {
  return (
    <span className="share-bar" aria-hidden="true">
      <span style={{ inlineSize: `${Math.max(0, Math.min(1, share)) * 100}%` }} />
    </span>
  )
}

interface Total {
  readonly label: string
  readonly lossDb: number
  readonly note: string
}

function totalsOf(evaluation: Evaluation): readonly Total[] {
  const { nominalDb, rootSumSquare, worstCorner, temperature } = evaluation
  return [
    { label: 'Nominal', lossDb: nominalDb, note: `${throughputText(nominalDb)} arrive` },
    { label: 'Root sum square', lossDb: rootSumSquare.lossDb, note: 'independent tolerances' },
    {
      label: 'Worst corner',
      lossDb: worstCorner.lossDb,
      note: worstCorner.exhaustive ? 'all corners tried' : 'corner search',
    },
    ...(temperature === null
      ? []
      : [
          {
            label: 'Worst temperature',
            lossDb: temperature.worstDb,
            note: `nominal, at ${Number(temperature.worstC.toFixed(1))} °C`.replace('-', '−'),
          },
        ]),
  ]
}

export function BudgetTable({ evaluation }: { readonly evaluation: Evaluation }) {
  const whole = evaluation.nominalDb
  return (
    <table className="budget">
      <caption>Budget</caption>
      <thead>
        <tr>
          <th scope="col">Line</th>
          <th scope="col" className="number">
            Loss, dB
          </th>
          <th scope="col">Share</th>
          <th scope="col">From</th>
        </tr>
      </thead>
      <tbody>
        {evaluation.lines.map((line) => {
          const share = whole > 0 ? line.lossDb / whole : 0
          return (
            <tr key={line.id} data-line={line.id}>
              <th scope="row">
                {line.label}
                {line.note !== undefined && <span className="quiet line-note">{line.note}</span>}
              </th>
              <td className="number">{lossText(line.lossDb)}</td>
              <td className="share">
                <ShareBar share={share} />
                <span className="share-text">{percentText(share)}</span>
              </td>
              <td>{line.provenance}</td>
            </tr>
          )
        })}
      </tbody>
      <tfoot>
        {totalsOf(evaluation).map((total) => (
          <tr key={total.label} data-total={total.label}>
            <th scope="row">{total.label}</th>
            <td className="number">{lossText(total.lossDb)}</td>
            <td colSpan={2}>{total.note}</td>
          </tr>
        ))}
      </tfoot>
    </table>
  )
}
