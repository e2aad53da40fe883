// A lot of assemblies: its losses, where their spread comes from, whether it drifts, and what the next lot will yield.

import { useMemo } from 'react'
import { controlChartFigure } from '../../../figures/lots/controlChart'
import { lossDistributionFigure } from '../../../figures/lots/lossDistribution'
import { type LotOutcome, type LotSummary, type NextLot, nextLot } from '../../../measure/index'
import { leadingLimitDb } from '../../../model/project/lossCriteria'
import type { MeasurementOf } from '../../../model/schema/measurement'
import type { Project } from '../../../model/schema/project'
import { fixedText, signedText, withUncertainty } from '../../../numerics/numberText'
import { FactTable } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { LotComparison } from './LotComparison'
import { VarianceTable } from './VarianceTable'

const HEIGHT_PX = 280
/** What an interval is computed from. */
const MEANS = { batches: 'batch means', assemblies: 'assembly means' } as const
const percent = (share: number) => fixedText(100 * share, 1)
const rangeText = ({ low, high }: { readonly low: number; readonly high: number }) =>
  `${percent(low)} to ${percent(high)} %`

export function LotView({
  project,
  measurement,
  result,
}: {
  readonly project: Project
  readonly measurement: MeasurementOf<'lot'>
  readonly result: LotOutcome
}) {
  const { lot } = result
  const limitDb = leadingLimitDb(project.requirements)
  const losses = useMemo(
    () => lossDistributionFigure({ measured: lot.lossDb, predicted: [], limitDb }),
    [lot, limitDb],
  )
  const chart = useMemo(() => controlChartFigure(lot), [lot])
  const batches = lot.assemblies.map(({ batch }) => batch)
  const next = nextLot(
    lot.assemblies.map(({ worstDb }) => worstDb <= limitDb),
    batches.every((batch) => batch !== null) ? batches : null,
  )
  return (
    <>
      <div className="result-columns">
        <div>
          <FigureView figure={losses} heightPx={HEIGHT_PX} />
          {chart === null ? (
            <p className="quiet">A control chart needs at least four assemblies.</p>
          ) : (
            <>
              <h3>Control chart (individuals and moving range)</h3>
              <FigureView figure={chart} heightPx={HEIGHT_PX} />
              <Drift lot={lot} />
            </>
          )}
        </div>
        <div>
          <LotFacts lot={lot} />
          <NextLotFacts next={next} limitDb={limitDb} />
          <VarianceTable lot={lot} />
          {next.warning !== null && <p>{next.warning}</p>}
        </div>
      </div>
      <LotComparison project={project} measurement={measurement} lot={lot} />
    </>
  )
}

function LotFacts({ lot }: { readonly lot: LotSummary }) {
  const { meanPlusMinusDb, lowestReturnLossDb } = lot
  return (
    <FactTable
      caption="Measured lot"
      rows={[
        ['Losses', String(lot.lossDb.length)],
        ['Assemblies', String(lot.assemblies.length)],
        ['Channels', String(lot.channels.length)],
        [
          `Mean loss, 95 % interval from ${MEANS[lot.meanFrom]}`,
          meanPlusMinusDb === null
            ? `${fixedText(lot.meanDb, 3)} dB`
            : `${withUncertainty(lot.meanDb, meanPlusMinusDb)} dB`,
        ],
        ['Standard deviation', `${fixedText(lot.spreadDb, 3)} dB`],
        ['P50', `${fixedText(lot.p50Db, 2)} dB`],
        ['P95', `${fixedText(lot.p95Db, 2)} dB`],
        ['Highest', `${fixedText(lot.worstDb, 2)} dB`],
        ...(lowestReturnLossDb === null
          ? []
          : [['Lowest return loss', `${fixedText(lowestReturnLossDb, 1)} dB`] as const]),
      ]}
    />
  )
}

function NextLotFacts({ next, limitDb }: { readonly next: NextLot; readonly limitDb: number }) {
  return (
    <>
      <FactTable
        caption={`Yield at ${limitDb} dB, all channels of an assembly`}
        rows={[
          ['Passed', `${next.passed} of ${next.assemblies}, ${percent(next.yield)} %`],
          ['Process yield, 95 % interval', rangeText(next.interval)],
          [`Expected yield of the next ${next.assemblies}`, `${percent(next.expected)} %`],
          ['95 % range of the next lot', rangeText(next.range)],
        ]}
      />
      <p className="quiet">
        Assumes an unchanged process (Wilson interval; beta-binomial prediction).
        {next.effective < next.assemblies - 0.5 &&
          ` Batches differ: ${next.assemblies} assemblies are equivalent to ${fixedText(next.effective, 1)} independent ones.`}
      </p>
    </>
  )
}

/** The slope over the lot, and whether it is more than chance. */
function Drift({ lot }: { readonly lot: LotSummary }) {
  if (lot.trend === null) return null
  const { slope, slopePlusMinus, from } = lot.trend
  const steps = lot.assemblies.length - 1
  return (
    <p>
      {slopePlusMinus === null
        ? `Trend over the lot: ${signedText(slope * steps, 3)} dB. Two batches cannot be distinguished from a drift.`
        : `Trend over the lot: ${withUncertainty(slope * steps, slopePlusMinus * steps)} dB (95 %, from ${MEANS[from]}), ${
            Math.abs(slope) > slopePlusMinus ? 'a significant drift' : 'not significant'
          }.`}{' '}
      <span className="quiet">
        Limits: mean ± 3 × mean moving range / 1.128; range limit 3.267 × mean moving range.
      </span>
    </p>
  )
}
