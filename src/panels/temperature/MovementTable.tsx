// How far the fibre side moves against the chip at both ends of the temperature range.

import type { JointMovement } from '../../analysis/temperature/temperatureSweep'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import { fixedText, plainText, roundedTo } from '../../numerics/numberText'

const celsius = (value: number) => `${plainText(roundedTo(value, 2))} °C`
const um = (value: number) => `${fixedText(value, 2)} µm`

export function MovementTable({
  movements,
  joint,
}: {
  readonly movements: readonly JointMovement[]
  readonly joint: JointName | undefined
}) {
  return (
    <table>
      <caption>{ofJoint('Displacement since assembly, fibre side relative to chip', joint)}</caption>
      <thead>
        <tr>
          <th scope="col">Temperature</th>
          <th scope="col" className="number">
            x
          </th>
          <th scope="col" className="number">
            y
          </th>
          <th scope="col" className="number">
            Gap
          </th>
        </tr>
      </thead>
      <tbody>
        {movements.map((each) => (
          <tr key={each.temperatureC}>
            <th scope="row">{celsius(each.temperatureC)}</th>
            <td className="number">{um(each.xUm)}</td>
            <td className="number">{um(each.yUm)}</td>
            <td className="number">{um(each.zUm)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
