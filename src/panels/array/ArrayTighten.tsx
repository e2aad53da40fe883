// Tolerances by their effect on the all-channel yield.

import { type ArrayTolerance, worthNarrowing } from '../../analysis/array/arrayRanking'
import type { ArrayResult } from '../../analysis/array/runArray'
import { gainName, percentileChangeText } from '../../analysis/results/percentileGain'
import type { Path } from '../../model/issue'
import { AIM_NAMES } from '../../model/words/fibreArray'
import { countText } from '../../numerics/numberText'
import { pointsText } from '../../ui/jobs/narrowing'
import { type TightenColumn, TightenTable } from '../../ui/jobs/TightenTable'

const columnsOf = (percentile: string, several: boolean): readonly TightenColumn<ArrayTolerance>[] => [
  {
    head: `${several ? 'All-channel yield' : 'Yield'} if halved`,
    className: 'number',
    cell: ({ yieldGainHalved }) => pointsText(yieldGainHalved, 1),
  },
  {
    head: `Change of ${several ? 'worst-channel ' : ''}${percentile} if halved, dB`,
    className: 'number',
    cell: percentileChangeText,
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
  const tolerances = result.ranking.tolerances.filter(worthNarrowing)
  const unlisted = others + result.ranking.tolerances.length - tolerances.length
  const several = (result.aims[0]?.channels.length ?? 1) > 1
  const yieldName = several ? 'all-channel yield' : 'yield'
  if (tolerances.length === 0) {
    return (
      <p className="quiet">
        Halving any one tolerance gains less than half a percentage point of {yieldName} and less than 0.01 dB
        at the percentile of the requirement.
      </p>
    )
  }
  return (
    <div className="table-beside">
      <TightenTable
        caption={`Tolerances by effect on ${yieldName}`}
        className="ranking"
        lines={tolerances}
        columns={columnsOf(gainName(tolerances), several)}
        stale={stale}
        onTighten={onTighten}
      />
      <div>
        <p className="quiet">
          Yield in percentage points,{' '}
          {result.aims.length > 1 ? `aligned for: ${AIM_NAMES[result.aim]}` : 'array placed as entered'},
          evaluated on {countText(rankingBlocks)} of these {several ? 'arrays' : 'assemblies'}, the same for
          each tolerance; the percentile with its standard error.
          {unlisted > 0 &&
            ` Others, each gaining less than half a percentage point and less than 0.01 dB: ${unlisted}.`}
        </p>
      </div>
    </div>
  )
}
