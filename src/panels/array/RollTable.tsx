// How much roll the outer channels bear, for this array and for others at the same pitch.

import { rollForLossRad } from '../../analysis/array/blockGeometry'
import { coreValue, type Quantity } from '../../model/quantity'
import type { GaussianJoint } from '../../optics/index'

const COUNTS = [2, 4, 8, 12, 16, 24, 32, 64] as const
const STEPS_DB = [0.2, 0.5, 1] as const
const DEG = 180 / Math.PI

export function RollTable({
  joint,
  channels,
  pitch,
}: {
  readonly joint: GaussianJoint
  readonly channels: number
  readonly pitch: Quantity
}) {
  if (channels < 2) {
    return <p>One channel: nothing to roll. The requirements hold the number of channels.</p>
  }
  const pitchUm = coreValue(pitch, 'pitch')
  const shown = [...new Set([channels, ...COUNTS])].sort((a, b) => a - b)
  const rollText = (count: number, excessDb: number) => {
    const roll = rollForLossRad(joint, count, pitchUm, excessDb)
    return roll === null ? 'any' : `${(roll * DEG).toFixed(3)}°`
  }
  const row = (count: number) => (
    <tr key={count}>
      <th scope="row">{count} channels</th>
      {STEPS_DB.map((excessDb) => (
        <td key={excessDb} className="number">
          {rollText(count, excessDb)}
        </td>
      ))}
    </tr>
  )
  const head = (
    <thead>
      <tr>
        <th scope="col">At {pitchUm} µm pitch</th>
        {STEPS_DB.map((excessDb) => (
          <th key={excessDb} scope="col" className="number">
            {excessDb} dB
          </th>
        ))}
      </tr>
    </thead>
  )
  return (
    <>
      <table>
        <caption>Roll that costs the outer channels</caption>
        {head}
        <tbody>{row(channels)}</tbody>
      </table>
      <details>
        <summary>Other numbers of channels</summary>
        <table>
          {head}
          <tbody>{shown.filter((each) => each !== channels).map(row)}</tbody>
        </table>
      </details>
    </>
  )
}
