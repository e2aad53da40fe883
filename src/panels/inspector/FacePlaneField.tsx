// In which plane the end faces of a joint lean.

import type { GapElement } from '../../model/schema/candidate'
import { FACE_PLANES } from '../../model/words/candidate'
import { ChoiceField } from '../../ui/fields/ChoiceField'

const CHOICES = [
  { value: 'x', label: 'x, along the chip' },
  { value: 'y', label: 'y, normal to the chip' },
]

export function FacePlaneField({
  plane,
  onChoose,
}: {
  readonly plane: GapElement['facePlane']
  readonly onChoose: (plane: GapElement['facePlane']) => void
}) {
  return (
    <ChoiceField
      label="Faces lean in"
      value={plane}
      choices={CHOICES}
      onChoose={(value) => onChoose(FACE_PLANES.find((each) => each === value) ?? plane)}
    />
  )
}
