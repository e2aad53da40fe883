// Tolerances by their effect on one channel: share of the variance, and what a narrower one gains.

import { gainName, percentileChangeText } from '../../analysis/results/percentileGain'
import type { YieldOptions } from '../../analysis/yield/runYield'
import type { RankedTolerance, YieldResult } from '../../analysis/yield/yieldResult'
import type { Path } from '../../model/issue'
import { withUnitLabel } from '../../model/quantity/units'
import { fixedText, plainText } from '../../numerics/numberText'
import { startYield } from '../../store/runs'
import { workbench } from '../../store/workbench'
import { narrowTolerance, pointsText } from '../../ui/jobs/narrowing'
import { type TightenColumn, TightenTable } from '../../ui/jobs/TightenTable'

/** Tolerances that make less than this share of the variance are listed on request. */
const WORTH_A_LINE = 0.005

export function RankingView({
  candidateId,
  result,
  options,
  stale,
}: {
  readonly candidateId: string
  readonly result: YieldResult
  readonly options: YieldOptions
  readonly stale: boolean
}) {
  const tighten = (path: Path) => {
    narrowTolerance(path)
    void startYield(workbench.getState().project, candidateId, options)
  }
  const main = result.ranking.filter((each) => each.total >= WORTH_A_LINE)
  const rest = result.ranking.filter((each) => each.total < WORTH_A_LINE)
  if (result.ranking.length === 0) return <p>No quantity of this path has a tolerance.</p>
  return (
    <div className="table-beside">
      <div>
        <RankingTable lines={main} stale={stale} onTighten={tighten} />
        {rest.length > 0 && (
          <details>
            <summary>{rest.length} more with less than half a per cent of the variance each</summary>
            <RankingTable lines={rest} stale={stale} onTighten={tighten} />
          </details>
        )}
      </div>
      <div>
        <p className="quiet">{RANKING_METHOD}</p>
      </div>
    </div>
  )
}

const RANKING_METHOD =
  'Share of the variance of the loss: main, and total with interactions (Saltelli; total by Jansen). Yield in percentage points, from the same samples with each tolerance changed; a change of one assembly is shown as zero. Percentile with its standard error; a change below 1.96 standard errors is not distinguishable from none, and needs a longer run.'

/** A step of the half width that suits its size: the power of ten at or below it. */
function stepOf(plusMinus: number): number {
  return 10 ** Math.floor(Math.log10(plusMinus))
}

function slopeText({ yieldPerUnit, plusMinus, unit }: RankedTolerance): string {
  const step = stepOf(plusMinus)
  return `${pointsText(yieldPerUnit * step, 1)} per ${withUnitLabel(plainText(step, 1), unit)}`
}

const percent = (share: number) => fixedText(Math.max(0, 100 * share), 0)

const columnsOf = (percentile: string): readonly TightenColumn<RankedTolerance>[] => [
  {
    head: 'Variance share, main / total',
    className: 'share',
    cell: ({ firstOrder, total }) => (
      <>
        <span className="share-bar" aria-hidden="true">
          <span style={{ inlineSize: `${Math.max(0, Math.min(1, total)) * 100}%` }} />
        </span>
        <span className="share-text">
          {percent(firstOrder)} / {percent(total)} %
        </span>
      </>
    ),
  },
  { head: 'Yield change per unit of ±', className: 'number', cell: slopeText },
  {
    head: 'If halved',
    className: 'number',
    cell: ({ yieldGainHalved }) => pointsText(yieldGainHalved, 1),
  },
  {
    head: `Change of ${percentile} if halved, dB`,
    className: 'number',
    cell: percentileChangeText,
  },
]

function RankingTable({
  lines,
  stale = false,
  onTighten,
}: {
  readonly lines: readonly RankedTolerance[]
  readonly stale?: boolean
  /** Absent on paper. */
  readonly onTighten?: (path: Path) => void
}) {
  return (
    <TightenTable
      caption="Tolerances by effect"
      className="ranking"
      lines={lines}
      columns={columnsOf(gainName(lines))}
      stale={stale}
      onTighten={onTighten}
    />
  )
}
