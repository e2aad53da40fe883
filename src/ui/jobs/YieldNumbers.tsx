// Yield and percentiles with their intervals, next to those of the previous run.

import type { YieldResult } from '../../analysis/yield/yieldResult'
import { percentileName } from '../../model/project/statedRequirements'
import { lossText } from '../../model/quantity/lossText'
import { countText, fixedText, signedText, unbroken } from '../../numerics/numberText'
import type { PointKind } from '../../numerics/random/unitPoints'
import { NO_LIGHT_DB } from '../../optics/index'

const METHOD_LABELS: Readonly<Record<PointKind, string>> = {
  sobol: 'Scrambled Sobol',
  random: 'Pseudo-random',
}

/** A share in per cent with as many digits as the sample supports. */
export function shareText(share: number): string {
  return `${fixedText(100 * share, 2)} %`
}

/** Excess loss of the percentiles relative to nominal: `P50 +0.31 dB, P95 +0.92 dB`; `> 200 dB` where no light arrives. */
export function excessText({
  percentiles,
  nominalDb,
}: Pick<YieldResult, 'percentiles' | 'nominalDb'>): string {
  return percentiles
    .map(({ share, lossDb }) => {
      const excess = lossDb < NO_LIGHT_DB ? signedText(lossDb - nominalDb, 2) : lossText(lossDb)
      return `${percentileName(100 * share)} ${excess} dB`
    })
    .join(', ')
}

export function YieldNumbers({
  result,
  before,
}: {
  readonly result: YieldResult
  readonly before: YieldResult | null
}) {
  const { low, high } = result.yieldInterval
  const earlier = (share: number) => before?.percentiles.find((each) => each.share === share)
  return (
    <>
      <table className="yield-numbers">
        <caption>
          {unbroken(`${countText(result.samples)} simulated assemblies, limit ${result.limitDb} dB`)}
        </caption>
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col" className="number">
              This run
            </th>
            <th scope="col" className="number">
              {100 * result.confidence} % interval
            </th>
            {before !== null && (
              <th scope="col" className="number">
                Previous run
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          <tr data-yield="yield" className="yield-line">
            <th scope="row">Yield</th>
            <td className="number">{shareText(result.yield)}</td>
            <td className="number">
              {shareText(low)} to {shareText(high)}
            </td>
            {before !== null && <td className="number">{shareText(before.yield)}</td>}
          </tr>
          {result.touching !== null && (
            <tr data-yield="touching">
              <th scope="row">In contact with the chip</th>
              <td className="number">{shareText(result.touching)}</td>
              <td />
              {before !== null && (
                <td className="number">{before.touching === null ? '' : shareText(before.touching)}</td>
              )}
            </tr>
          )}
          {result.percentiles.map(({ share, lossDb, lowDb, highDb }) => (
            <tr key={share} data-yield={percentileName(100 * share)}>
              <th scope="row">{percentileName(100 * share)}</th>
              <td className="number">{lossText(lossDb)} dB</td>
              <td className="number">
                {lossText(lowDb)} to {lossText(highDb)} dB
              </td>
              {before !== null && (
                <td className="number">{lossText(earlier(share)?.lossDb ?? before.p95Db)} dB</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">
        Mean {lossText(result.meanDb)} dB, standard deviation {lossText(result.standardDeviationDb)} dB;
        nominal {lossText(result.nominalDb)} dB. Excess loss relative to nominal:{' '}
        {unbroken(excessText(result))}. First-order propagation alone gives a standard deviation of{' '}
        {lossText(result.firstOrderDb)} dB. {METHOD_LABELS[result.method]} points, seed {result.seed}
        {result.stoppedEarly
          ? `; stopped early because the percentile is known to the requested accuracy at ${100 * result.confidence} % confidence`
          : ''}
        .
      </p>
    </>
  )
}
