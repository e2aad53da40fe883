// How far each axis may go from where it works before it costs half, one and three decibels more.

import { type AxisWindow, WINDOW_STEPS_DB } from '../../analysis/tolerance/toleranceCurve'
import { AXIS_TEXT } from '../../report/figures/axisText'

function windowText(mark: AxisWindow['marks'][number] | undefined, perCore: number): string {
  const side = (value: number | null | undefined, sign: string) =>
    value === null || value === undefined ? '' : `${sign}${(value * perCore).toFixed(2)}`
  const text = [side(mark?.below, '−'), side(mark?.above, '+')].filter((each) => each !== '').join(' / ')
  return text === '' ? 'never' : text
}

/** Three decimals, without a sign before nothing. */
function slopeText(slope: number): string {
  return slope
    .toFixed(3)
    .replace(/^-(?=0\.000$)/, '')
    .replace('-', '−')
}

export function WindowTable({ windows }: { readonly windows: readonly AxisWindow[] }) {
  return (
    <table data-table="windows">
      <caption>Room on each axis, alone, from the working point</caption>
      <thead>
        <tr>
          <th scope="col">Axis</th>
          {WINDOW_STEPS_DB.map((excessDb) => (
            <th key={excessDb} scope="col" className="number">
              {excessDb} dB more
            </th>
          ))}
          <th scope="col" className="number">
            Slope here
          </th>
        </tr>
      </thead>
      <tbody>
        {windows.map((window) => {
          const { name, unit, perCore } = AXIS_TEXT[window.axis]
          return (
            <tr key={window.axis} data-axis={window.axis}>
              <th scope="row">
                {name}, {unit}
              </th>
              {window.marks.map((mark) => (
                <td key={mark.excessDb} className="number">
                  {windowText(mark, perCore)}
                </td>
              ))}
              <td className="number">
                {slopeText(window.slopeDbPerUnit / perCore)} dB/{unit}
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
