// What each alignment strategy gives and loses against the best; the chosen row is the one shown below.

import type { AimResult, ArrayResult } from '../../analysis/array/runArray'
import { WORST_SINGLE_CHANNEL } from '../../analysis/results/worstChannel'
import { lossText } from '../../model/quantity/lossText'
import { AIM_NAMES } from '../../model/words/fibreArray'
import { countText } from '../../numerics/numberText'
import { shareText } from '../../ui/jobs/YieldNumbers'
import { aboveLeastText } from './aimLosses'

/** `4096 arrays of 12 channels, Sobol points, seed 16537.` */
export function blocksText({ samples, seed, aims }: ArrayResult): string {
  const channels = aims[0]?.channels.length ?? 0
  const simulated = channels === 1 ? 'simulated assemblies' : `arrays of ${channels} channels`
  return `${countText(samples)} ${simulated}, Sobol points, seed ${seed}.`
}

/** A mean loss, and what it is above the least of all aims; null where there is only one. */
function Loss({ lossDb, leastDb }: { readonly lossDb: number; readonly leastDb: number | null }) {
  return (
    <td className="number">
      {lossText(lossDb)} dB
      {leastDb !== null && <span className="quiet interval">{aboveLeastText(lossDb, leastDb)}</span>}
    </td>
  )
}

export function AimTable({
  result,
  before = null,
  chosen,
  onChoose,
}: {
  readonly result: ArrayResult
  /** The previous run, to compare the new yield with the old. */
  readonly before?: ArrayResult | null
  readonly chosen?: string
  /** Absent on paper, where nothing can be chosen. */
  readonly onChoose?: (aim: string) => void
}) {
  const { aims } = result
  const several = aims.length > 1
  const choosable = several && onChoose !== undefined
  const least = (read: (aim: AimResult) => number) => (several ? Math.min(...aims.map(read)) : null)
  const leastPowerDb = least((each) => each.meanPowerLossDb)
  const leastWorstDb = least((each) => each.meanWorstDb)
  return (
    <div className="wide-table">
      <table>
        <caption>{several ? 'Alignment strategies' : 'Yield of the array'}</caption>
        <thead>
          <tr>
            <th scope="col">Alignment strategy</th>
            <th scope="col" className="number">
              Yield, all channels
            </th>
            {before !== null && (
              <th scope="col" className="number">
                Previous run
              </th>
            )}
            <th scope="col" className="number">
              {WORST_SINGLE_CHANNEL}
            </th>
            <th scope="col" className="number">
              Mean loss, all channels
            </th>
            <th scope="col" className="number">
              Mean loss, worst channel
            </th>
            {choosable && (
              <th scope="col">
                <span className="visually-hidden">Strategy displayed below</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {aims.map((each) => {
            const earlier = before?.aims.find(({ aim }) => aim === each.aim)
            return (
              <tr key={each.aim} data-aim={each.aim}>
                <th scope="row">{several ? AIM_NAMES[each.aim] : 'as entered'}</th>
                <td className="number">
                  <strong>{shareText(each.allChannelsYield)}</strong>
                  <span className="quiet interval">
                    {shareText(each.allChannelsInterval.low)} to {shareText(each.allChannelsInterval.high)}
                  </span>
                </td>
                {before !== null && (
                  <td className="number">
                    {earlier === undefined ? '–' : shareText(earlier.allChannelsYield)}
                  </td>
                )}
                <td className="number">{shareText(each.worstChannelYield)}</td>
                <Loss lossDb={each.meanPowerLossDb} leastDb={leastPowerDb} />
                <Loss lossDb={each.meanWorstDb} leastDb={leastWorstDb} />
                {choosable && (
                  <td>
                    <button
                      type="button"
                      className="subtle"
                      aria-pressed={each.aim === chosen}
                      onClick={() => onChoose(each.aim)}
                    >
                      {each.aim === chosen ? 'Shown' : 'Show'}
                      <span className="visually-hidden"> {AIM_NAMES[each.aim]}</span>
                    </button>
                  </td>
                )}
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}
