// What angled end faces do to the beam: its direction in the medium, and its width in the plane of the angle.

import type { JointView } from '../../analysis/results/evaluation'
import { coreValue } from '../../model/quantity/quantity'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import { fixedText } from '../../numerics/numberText'
import { facePointing } from '../../optics/index'

const DEG = 180 / Math.PI
const degrees = (rad: number) => `${fixedText(rad * DEG, 2)}°`

interface Side {
  readonly name: string
  readonly angleRad: number
  readonly guideIndex: number
  readonly mfdXUm: number
  readonly mfdYUm: number
}

export function AngledFaces({
  join,
  view,
}: {
  readonly join: GapElement | RelayElement
  readonly view: JointView
}) {
  const side = (name: string, port: JointView['near'], angleRad: number): Side => ({
    name,
    angleRad,
    guideIndex: port.index,
    mfdXUm: port.mfdXUm,
    mfdYUm: port.mfdYUm,
  })
  const sides = [
    side('Fibre side', view.near, coreValue(join.nearFaceAngle, 'faceAngle')),
    side('Chip side', view.far, coreValue(join.farFaceAngle, 'faceAngle')),
  ].filter((each) => each.angleRad !== 0)
  if (sides.length === 0) return null
  const inX = join.facePlane === 'x'
  return (
    <div className="wide-table">
      <table>
        <caption>Angled faces, Snell’s law</caption>
        <thead>
          <tr>
            <th scope="col">Side</th>
            <th scope="col" className="number">
              {' '}
              Face angle{' '}
            </th>
            <th scope="col" className="number">
              Beam in the medium, from the face normal
            </th>
            <th scope="col" className="number">
              Beam deflection
            </th>
            <th scope="col" className="number">
              Footprint, x × y
            </th>
          </tr>
        </thead>
        <tbody>
          {sides.map((each) => {
            const found = facePointing({
              guideIndex: each.guideIndex,
              mediumIndex: view.joint.index,
              faceAngleRad: each.angleRad,
            })
            if (found.totalInternalReflection) return null
            // On the face the mode is stretched in the plane of the angle.
            const stretch = 1 / Math.cos(each.angleRad)
            const [x, y] = [each.mfdXUm * (inX ? stretch : 1), each.mfdYUm * (inX ? 1 : stretch)]
            return (
              <tr key={each.name}>
                <th scope="row">{each.name}</th>
                <td className="number">{degrees(each.angleRad)}</td>
                <td className="number">{degrees(found.refractedRad)}</td>
                <td className="number">{degrees(found.exitDeviationRad)}</td>
                <td className="number">
                  {fixedText(x, 2)} × {fixedText(y, 2)} µm
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}
