// The budget of one candidate: a line each, with its share as a bar, and the totals below.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { lossText, percentText, throughputText } from '../../ui/text/numbers'

function ShareBar({ share }: { readonly share: number }) {
  return (
    <span className="share-bar" aria-hidden="true">
      <span style={{ inlineSize: `${Math.max(0, Math.min(1, share)) * 100}%` }} />
    </span>
  )
}

/** Differences below this are not worth a line. */
const LEAST_SHOWN_DB = 0.005

interface Total {
  readonly label: string
  readonly lossDb: number
  readonly note: string
}

/** What a yield run that still holds says of the same chain. */
function percentileTotals(run: YieldResult | null): readonly Total[] {
  if (run === null) return []
  return run.percentiles
    .filter(({ share }) => share >= 0.9)
    .map(({ share, lossDb }) => ({
      label: `P${Number((100 * share).toPrecision(6))}`,
      lossDb,
      note: run.temperaturesC.length > 0 ? 'yield of one channel, over temperature' : 'yield of one channel',
    }))
}

function totalsOf(evaluation: Evaluation, run: YieldResult | null): readonly Total[] {
  const { nominalDb, rootSumSquare, worstCorner, temperature } = evaluation
  const { ripples, band, polarisation } = evaluation
  const crestDb = ripples.reduce((sum, each) => sum + each.crestGainDb, 0)
  const troughDb = ripples.reduce((sum, each) => sum + each.troughLossDb, 0)
  return [
    { label: 'Nominal', lossDb: nominalDb, note: `${throughputText(nominalDb)} arrive` },
    { label: 'Root sum square', lossDb: rootSumSquare.lossDb, note: 'independent tolerances' },
    {
      label: 'Worst corner',
      lossDb: worstCorner.lossDb,
      note: worstCorner.exhaustive ? 'all corners tried' : 'corner search',
    },
    ...(troughDb < LEAST_SHOWN_DB
      ? []
      : [
          {
            label: 'At a ripple trough',
            lossDb: nominalDb + troughDb,
            note: `ripple −${lossText(crestDb)} to +${lossText(troughDb)} dB`,
          },
        ]),
    ...(polarisation.dependentLossDb < LEAST_SHOWN_DB
      ? []
      : [
          {
            label: 'Worse polarisation',
            lossDb: Math.max(polarisation.teDb, polarisation.tmDb),
            note: `TE ${lossText(polarisation.teDb)}, TM ${lossText(polarisation.tmDb)}`,
          },
        ]),
    ...(band === null || band.worstDb - nominalDb < LEAST_SHOWN_DB
      ? []
      : [
          {
            label: 'Worst in the band',
            lossDb: band.worstDb,
            note: `nominal, at ${Number((band.worstUm * 1000).toPrecision(7))} nm`,
          },
        ]),
    ...(temperature === null
      ? []
      : [
          {
            label: 'Worst temperature',
            lossDb: temperature.worstDb,
            note: `nominal, at ${Number(temperature.worstC.toFixed(1))} °C; root sum square ${lossText(temperature.rootSumSquareDb)}, corner ${lossText(temperature.worstCornerDb)}`.replace(
              '-',
              '−',
            ),
          },
        ]),
    ...percentileTotals(run),
  ]
}

export function BudgetTable({
  evaluation,
  run = null,
}: {
  readonly evaluation: Evaluation
  readonly run?: YieldResult | null
}) {
  const whole = evaluation.nominalDb
  return (
    <table data-table="budget">
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
        {totalsOf(evaluation, run).map((total) => (
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
