// Tolerances by their effect on the all-channel yield.

import type { ArrayTolerance } from '../../analysis/array/arrayRanking'
import type { ArrayResult } from '../../analysis/array/runArray'
import type { Path } from '../../model/issue'
import { pointsText } from '../../ui/jobs/narrowing'
import { type TightenColumn, TightenTable } from '../../ui/jobs/TightenTable'

/** Tolerances that bring less than this when halved are only counted. */
const WORTH_A_LINE = 0.005

const COLUMNS: readonly TightenColumn<ArrayTolerance>[] = [
  {
    head: 'All channels pass, if halved',
    className: 'number',
    cell: ({ yieldGainHalved }) => pointsText(yieldGainHalved, 1),
  },
]

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
    return <p className="quiet">No single tolerance, halved, gains half a point of all-channel yield.</p>
  }
  return (
    <>
      <TightenTable
        caption="Tolerances by effect on all-channel yield"
        className="ranking"
        lines={tolerances}
        columns={COLUMNS}
        stale={stale}
        onTighten={onTighten}
      />
      <p className="quiet">
        In percentage points, placed for {result.aim}, evaluated on the same {rankingBlocks} blocks.
        {unlisted > 0 && ` ${unlisted} more gain less than half a point each.`}
      </p>
    </>
  )
}
