// The alignment tolerance of each axis for half, one and three decibels of excess loss.

import { memo } from 'react'
import { type AxisWindow, WINDOW_STEPS_DB } from '../../analysis/tolerance/toleranceCurve'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { fixedText } from '../../numerics/numberText'

function windowText(mark: AxisWindow['marks'][number] | undefined, perCore: number): string {
  const side = (value: number | null | undefined, sign: string) =>
    value === null || value === undefined ? '' : `${sign}${fixedText(value * perCore, 2)}`
  const text = [side(mark?.below, '−'), side(mark?.above, '+')].filter((each) => each !== '').join(' / ')
  return text === '' ? '–' : text
}

export const WindowTable = memo(function WindowTable({
  windows,
  about,
  isProvisional,
}: {
  readonly windows: readonly AxisWindow[]
  /** What moves, and about which point it turns. */
  readonly about: string
  /** Whether the numbers may still change. */
  readonly isProvisional: boolean
}) {
  const number = isProvisional ? 'number provisional' : 'number'
  return (
    <table data-table="windows">
      <caption>
        Alignment tolerance per axis for an excess loss of 0.5, 1 and 3 dB.{' '}
        <span className="caption-note">{about}</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">Axis</th>
          {WINDOW_STEPS_DB.map((excessDb) => (
            <th key={excessDb} scope="col" className="number">
              {excessDb} dB
            </th>
          ))}
          <th scope="col" className="number">
            Local slope
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
                <td key={mark.excessDb} className={number}>
                  {windowText(mark, perCore)}
                </td>
              ))}
              <td className={number}>
                {fixedText(window.slopeDbPerUnit / perCore, 3)} dB/{unit}
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
})
