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
  readonly chosen: string
  readonly onChoose: (aim: string) => void
}) {
  const several = result.aims.length > 1
  return (
    <div className="wide-table">
      <table>
        <caption>{several ? 'Block placed for' : 'Block placed as typed'}</caption>
        <thead>
          <tr>
            <th scope="col" />
            <th scope="col" className="number">
              All channels pass
            </th>
            <th scope="col" className="number">
              95 % interval
            </th>
            <th scope="col" className="number">
              Worst channel passes
            </th>
            <th scope="col" className="number">
              Mean loss
            </th>
            <th scope="col" className="number">
              Mean worst
            </th>
            {several && (
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
              <td className="number">{shareText(each.allChannelsYield)}</td>
              <td className="number">
                {shareText(each.allChannelsInterval.low)} to {shareText(each.allChannelsInterval.high)}
              </td>
              <td className="number">{shareText(each.worstChannelYield)}</td>
              <td className="number">{lossText(each.meanPowerLossDb)} dB</td>
              <td className="number">{lossText(each.meanWorstDb)} dB</td>
              {several && (
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
