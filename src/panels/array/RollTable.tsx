// How much roll the outer channels tolerate, for this array and for other numbers of channels and pitches.

import { rollForLossRad } from '../../analysis/array/blockGeometry'
import type { PoseForm } from '../../analysis/path/vector/elementModels'
import { fixedText } from '../../numerics/numberText'

const COUNTS = [2, 4, 8, 12, 16, 24, 32, 64] as const
/** Common pitches in addition to that of the array, um (common practice, no source). */
const PITCHES_UM = [127, 250] as const
const STEPS_DB = [0.2, 0.5, 1] as const
const OTHERS_DB = 0.5
const DEG = 180 / Math.PI

function rollText(form: PoseForm, channels: number, pitchUm: number, excessDb: number): string {
  const roll = rollForLossRad(form, channels, pitchUm, excessDb)
  return roll === null ? 'any' : `± ${fixedText(roll * DEG, 3)}°`
}

/** A joint with the pitch of its channels. */
export interface RollJoint {
  readonly words: string
  readonly form: PoseForm
  readonly pitchUm: number
}

export function RollTable({
  joints,
  channels,
}: {
  /** That at the fibre array first. */
  readonly joints: readonly RollJoint[]
  readonly channels: number
}) {
  const [first] = joints
  if (first === undefined) return null
  if (channels < 2) {
    return <p>One channel: roll has no lever arm. The number of channels is set in Requirements.</p>
  }
  const pitches = [...new Set([...joints.map(({ pitchUm }) => pitchUm), ...PITCHES_UM])].sort((a, b) => a - b)
  const several = joints.length > 1
  return (
    <>
      <table>
        <caption>Roll tolerance of the outer channels{several ? '' : `, ${first.words}`}</caption>
        <thead>
          <tr>
            {several && <th scope="col">Joint</th>}
            <th scope="col">Array</th>
            {STEPS_DB.map((excessDb) => (
              <th key={excessDb} scope="col" className="number">
                {excessDb} dB
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {joints.map(({ words, form, pitchUm }) => (
            <tr key={words}>
              {several && <th scope="row">{words}</th>}
              <th scope="row">
                {channels} channels at {pitchUm} µm
              </th>
              {STEPS_DB.map((excessDb) => (
                <td key={excessDb} className="number">
                  {rollText(form, channels, pitchUm, excessDb)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <details>
        <summary>Other channel counts and pitches</summary>
        <table>
          <caption>
            Roll tolerance of the outer channels for {OTHERS_DB} dB, {first.words}
          </caption>
          <thead>
            <tr>
              <th scope="col">Channels</th>
              {pitches.map((each) => (
                <th key={each} scope="col" className="number">
                  at {each} µm
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {COUNTS.map((count) => (
              <tr key={count}>
                <th scope="row">{count}</th>
                {pitches.map((each) => (
                  <td key={each} className="number">
                    {rollText(first.form, count, each, OTHERS_DB)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  )
}
