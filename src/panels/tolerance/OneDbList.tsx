// The alignment tolerance of every axis for 1 dB excess loss, beside the map.

import type { AxisWindow } from '../../analysis/tolerance/toleranceCurve'
import { AXIS_TEXT } from '../../figures/loss/axisText'

const EXCESS_DB = 1

function sideText(window: AxisWindow, which: 'below' | 'above', sign: string): string {
  const reach = window.marks.find(({ excessDb }) => excessDb === EXCESS_DB)?.[which]
  return reach === null || reach === undefined
    ? ''
    : `${sign}${(reach * AXIS_TEXT[window.axis].perCore).toFixed(2)}`
}

/** `± 0.81` where both sides agree, else `−0.57 +0.97`. */
function toleranceText(window: AxisWindow): string {
  const [below, above] = [sideText(window, 'below', '\u2212'), sideText(window, 'above', '+')]
  if (below === '' && above === '') return '–'
  return below.slice(1) === above.slice(1)
    ? `± ${above.slice(1)}`
    : [below, above].filter((each) => each !== '').join(' ')
}

export function OneDbList({ windows }: { readonly windows: readonly AxisWindow[] }) {
  return (
    <table className="one-db">
      <caption>1 dB excess loss</caption>
      <tbody>
        {windows.map((window) => {
          const { name, unit } = AXIS_TEXT[window.axis]
          return (
            <tr key={window.axis}>
              <th scope="row">{name}</th>
              <td className="number">
                {toleranceText(window)}
                {unit === '°' ? unit : ` ${unit}`}
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
