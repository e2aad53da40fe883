// What to tighten for all channels together.

import type { ArrayResult } from '../../analysis/array/runArray'
import type { Path } from '../../model/issue'
import { HalveButton } from '../yield/HalveButton'
import { pointsText } from '../yield/narrowing'

/** Tolerances that bring less than this when halved are only counted. */
const WORTH_A_LINE = 0.005

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
  const { others, rankingBlocks } = result.ranking
  const tolerances = result.ranking.tolerances.filter((each) => each.yieldGainHalved >= WORTH_A_LINE)
  const unlisted = others + result.ranking.tolerances.length - tolerances.length
  if (tolerances.length === 0) {
    return <p className="quiet">No single tolerance, halved, brings half a point of yield of all channels.</p>
  }
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
                    <HalveButton path={each.path} label={each.label} stale={stale} onTighten={onTighten} />
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="quiet">
        In percentage points, placed for {result.aim}, counted on the same {rankingBlocks} blocks.
        {unlisted > 0 && ` ${unlisted} more bring less than half a point each.`}
      </p>
    </>
  )
}
