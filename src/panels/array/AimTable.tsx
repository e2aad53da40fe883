// What each way of placing the block comes to; the chosen row is the one drawn below.

import type { ArrayResult } from '../../analysis/array/runArray'
import { lossText } from '../candidate/numbers'
import { shareText } from '../yield/YieldNumbers'

export function AimTable({
  result,
  chosen,
  onChoose,
}: {
  readonly result: ArrayResult
  readonly chosen?: string
  /** Absent on paper, where nothing can be chosen. */
  readonly onChoose?: (aim: string) => void
}) {
  const several = result.aims.length > 1
  const choosable = several && onChoose !== undefined
  return (
    <div className="wide-table">
      <table>
        <caption>{several ? 'Block placed for' : 'Block placed as typed'}</caption>
        <thead>
          <tr>
            <th scope="col">Aim</th>
            <th scope="col" className="number">
              All channels pass
            </th>
            <th scope="col" className="number">
              Worst channel
            </th>
            <th scope="col" className="number">
              Mean loss, all / worst
            </th>
            {choosable && (
              <th scope="col">
                <span className="visually-hidden">Drawn below</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {result.aims.map((each) => (
            <tr key={each.aim} data-aim={each.aim}>
              <th scope="row">{several ? each.aim : 'No alignment on power'}</th>
              <td className="number">
                <strong>{shareText(each.allChannelsYield)}</strong>
                <span className="quiet interval">
                  {shareText(each.allChannelsInterval.low)} to {shareText(each.allChannelsInterval.high)}
                </span>
              </td>
              <td className="number">{shareText(each.worstChannelYield)}</td>
              <td className="number">
                {lossText(each.meanPowerLossDb)} / {lossText(each.meanWorstDb)} dB
              </td>
              {choosable && (
                <td>
                  <button type="button" aria-pressed={each.aim === chosen} onClick={() => onChoose(each.aim)}>
                    {each.aim === chosen ? 'Drawn' : 'Draw'}
                    <span className="visually-hidden"> {each.aim}</span>
                  </button>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
