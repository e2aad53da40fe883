// What to tighten: every tolerance with its share of the spread, what a narrower one brings, and the button that does it.

import type { YieldOptions } from '../../analysis/yield/runYield'
import type { RankedTolerance, YieldResult } from '../../analysis/yield/yieldResult'
import type { Path } from '../../model/issue'
import type { Project } from '../../model/project'
import { quantityAt, scaleTolerance } from '../../model/quantityAt'
import { startYield } from '../../store/runs'
import { editProject, workbench } from '../../store/workbench'

const HALF = 0.5
/** Tolerances that make less than this share of the variance are listed on request. */
const WORTH_A_LINE = 0.005

const signed = (points: number, digits: number) =>
  `${points < 0 ? '−' : '+'}${Math.abs(points).toFixed(digits)}`

function narrow(path: Path): void {
  editProject((draft) => {
    const quantity = quantityAt(draft, path)
    if (quantity !== undefined) scaleTolerance(quantity, HALF)
  })
}

export function Ranking({
  candidateId,
  result,
  options,
  stale,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly result: YieldResult
  readonly options: YieldOptions
  readonly stale: boolean
}) {
  const tighten = (path: Path) => {
    narrow(path)
    void startYield(workbench.getState().project, candidateId, options)
  }
  const main = result.ranking.filter((each) => each.total >= WORTH_A_LINE)
  const rest = result.ranking.filter((each) => each.total < WORTH_A_LINE)
  if (result.ranking.length === 0) return <p>No quantity of this chain has a tolerance.</p>
  return (
    <>
      <RankingTable lines={main} stale={stale} onTighten={tighten} />
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} more that make less than half a per cent of the spread each</summary>
          <RankingTable lines={rest} stale={stale} onTighten={tighten} />
        </details>
      )}
      <p className="quiet">
        Effect on the variance of the loss: alone, and with its interactions (Saltelli; total by Jansen).
        Yield counted on the same points with each tolerance changed, in percentage points.
      </p>
    </>
  )
}

function RankingTable({
  lines,
  stale,
  onTighten,
}: {
  readonly lines: readonly RankedTolerance[]
  readonly stale: boolean
  readonly onTighten: (path: Path) => void
}) {
  return (
    <div className="wide-table">
      <table className="ranking">
        <caption>What to tighten</caption>
        <thead>
          <tr>
            <th scope="col">Tolerance</th>
            <th scope="col" className="number">
              ±
            </th>
            <th scope="col">Effect, alone / total</th>
            <th scope="col" className="number">
              Yield per unit of ±
            </th>
            <th scope="col" className="number">
              If halved, %
            </th>
            <th scope="col">
              <span className="visually-hidden">Tighten</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.path.join('/')} data-tolerance={line.label}>
              <th scope="row">{line.label}</th>
              <td className="number">
                {Number(line.plusMinus.toPrecision(3))} {line.unit}
              </td>
              <td className="share">
                <span className="share-bar" aria-hidden="true">
                  <span style={{ inlineSize: `${Math.max(0, Math.min(1, line.total)) * 100}%` }} />
                </span>
                <span className="share-text">
                  {Math.max(0, 100 * line.firstOrder).toFixed(0)} / {Math.max(0, 100 * line.total).toFixed(0)}{' '}
                  %
                </span>
              </td>
              <td className="number">{signed(100 * line.yieldPerUnit, 1)}</td>
              <td className="number">{signed(100 * line.yieldGainHalved, 2)}</td>
              <td>
                <button type="button" disabled={stale} onClick={() => onTighten(line.path)}>
                  Halve<span className="visually-hidden"> the tolerance of {line.label}</span>
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
