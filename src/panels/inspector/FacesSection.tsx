// The plane in which the end faces of a joint are angled, and what the fibre's axis does about it.

import type { JointView } from '../../analysis/results/evaluation'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import { FACE_PLANES, POINTINGS } from '../../model/words/candidate'
import { fixedText } from '../../numerics/numberText'
import { editElement } from '../../store/elementEdits'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { InspectorSection } from './InspectorSection'

const PLANES = [
  { value: 'x', label: 'x (in plane)' },
  { value: 'y', label: 'y (out of plane)' },
]
const AXES = [
  { value: 'refracted', label: 'follows refracted beam' },
  { value: 'parallel', label: 'parallel to chip axis' },
]
const DEG_PER_RAD = 180 / Math.PI

/** How far the fibre's axis is tilted so that its refracted beam meets the mode of the chip. */
function pointingText(view: JointView | undefined): string {
  const axes = [
    ['x', view?.pointingXRad ?? 0],
    ['y', view?.pointingYRad ?? 0],
  ] as const
  return axes
    .filter(([, rad]) => rad !== 0)
    .map(([axis, rad]) => `${fixedText(rad * DEG_PER_RAD, 2)}° in ${axis}`)
    .join(', ')
}

export function FacesSection({
  joint,
  designId,
  view,
}: {
  readonly joint: GapElement | RelayElement
  readonly designId: string
  readonly view: JointView | undefined
}) {
  const pointing = pointingText(view)
  return (
    <InspectorSection
      title="Face plane and pointing"
      note={pointing === '' ? undefined : `fibre axis ${pointing}`}
    >
      <ChoiceField
        label="Plane of the face angles"
        value={joint.facePlane}
        choices={PLANES}
        onChoose={(value) =>
          editElement(designId, joint.id, joint.kind, (own) => {
            own.facePlane = FACE_PLANES.find((each) => each === value) ?? own.facePlane
          })
        }
      />
      {joint.kind === 'gap' && (
        <ChoiceField
          label="Fibre axis"
          value={joint.pointing}
          choices={AXES}
          onChoose={(value) =>
            editElement(designId, joint.id, 'gap', (own) => {
              own.pointing = POINTINGS.find((each) => each === value) ?? own.pointing
            })
          }
        />
      )}
      {pointing !== '' && (
        <p className="quiet">
          Fibre axis tilted {pointing} relative to the chip axis to follow the refracted beam (Snell&rsquo;s
          law).
        </p>
      )}
    </InspectorSection>
  )
}
