// What to tighten for all channels together.

import type { ArrayResult } from '../../analysis/array/runArray'
import type { Path } from '../../model/issue'
import { pointsText } from '../yield/narrowing'

export function ArrayTighten({
  result,
  stale = false,
  onTighten,
}: {
  readonly result: ArrayResult
  readonly stale?: boolean
  /** Absent on paper. */
  readonly onTighten?: (path: Path) => void
}) {
  const { tolerances, others, rankingBlocks } = result.ranking
  if (tolerances.length === 0) return null
  return (
    <>
      <div className="wide-table">
        <table className="ranking array-ranking">
          <caption>What to tighten for all channels</caption>
          <thead>
            <tr>
              <th scope="col">Tolerance</th>
              <th scope="col" className="number">
                ±
              </th>
              <th scope="col" className="number">
                All channels pass, if halved
              </th>
              {onTighten !== undefined && (
                <th scope="col">
                  <span className="visually-hidden">Tighten</span>
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {tolerances.map((each) => (
              <tr key={each.path.join('/')} data-tolerance={each.label}>
                <th scope="row">{each.label}</th>
                <td className="number">
                  {Number(each.plusMinus.toPrecision(3))} {each.unit}
                </td>
                <td className="number">{pointsText(each.yieldGainHalved, 1)}</td>
                {onTighten !== undefined && (
                  <td>
                    <button type="button" disabled={stale} onClick={() => onTighten(each.path)}>
                      Halve<span className="visually-hidden"> the tolerance of {each.label}</span>
                    </button>
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="quiet">
        In percentage points, placed for {result.aim}, counted on the same {rankingBlocks} blocks.
        {others > 0 && ` ${others} more tolerances hardly move the worst channel.`}
      </p>
    </>
  )
}
