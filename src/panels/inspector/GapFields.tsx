// The six degrees of freedom of a gap and its end faces, as numbers.

import { type JointName, ofJoint } from '../../model/designs/jointNames'
import { quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { GapElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { POINTINGS } from '../../model/words/candidate'
import { editElement, findElement } from '../../store/elementEdits'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { DriftFields } from '../../ui/fields/DriftFields'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { FacePlaneField } from './FacePlaneField'

type GapQuantity =
  | 'gap'
  | 'offsetX'
  | 'offsetY'
  | 'tiltX'
  | 'tiltY'
  | 'roll'
  | 'nearFaceAngle'
  | 'farFaceAngle'

const FIELDS: readonly { readonly field: GapQuantity; readonly label: string; readonly rule: RuleName }[] = [
  { field: 'gap', label: 'Gap', rule: 'gap' },
  { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  { field: 'offsetY', label: 'Offset y', rule: 'offset' },
  { field: 'tiltX', label: 'Tilt x', rule: 'tilt' },
  { field: 'tiltY', label: 'Tilt y', rule: 'tilt' },
  { field: 'roll', label: 'Roll', rule: 'roll' },
  { field: 'nearFaceAngle', label: 'Near face angle', rule: 'faceAngle' },
  { field: 'farFaceAngle', label: 'Far face angle', rule: 'faceAngle' },
]

const POINTING_CHOICES = [
  { value: 'refracted', label: 'turned to beam' },
  { value: 'parallel', label: 'axes parallel' },
]

export function GapFields({
  project,
  gap,
  candidateId,
  name,
  last,
}: {
  readonly project: Project
  readonly gap: GapElement
  readonly candidateId: string
  readonly name: JointName | undefined
  /** True for the joint at the chip, whose movement on bonding stands with its assembly. */
  readonly last: boolean
}) {
  const bonded = project.media.some((each) => each.id === gap.mediumId && each.state === 'adhesive')
  const find = (draft: Project) => findElement(draft, candidateId, gap.id, 'gap')
  const edit = (recipe: (own: GapElement) => void) => editElement(candidateId, gap.id, 'gap', recipe)
  return (
    <fieldset className="gap-group">
      <legend>
        {ofJoint('Gap', name)} <span className="quiet">{name?.between}</span>
      </legend>
      <div className="gap-fields">
        {FIELDS.map(({ field, label, rule }) => (
          <QuantityField
            key={field}
            label={label}
            quantity={gap[field]}
            ruleName={rule}
            find={(draft) => find(draft)?.[field]}
          />
        ))}
        <FacePlaneField
          plane={gap.facePlane}
          onChoose={(plane) =>
            edit((own) => {
              own.facePlane = plane
            })
          }
        />
        <ChoiceField
          label={name?.near === 'taper chip' ? 'Taper chip is' : 'Fibre is'}
          value={gap.pointing}
          choices={POINTING_CHOICES}
          onChoose={(value) =>
            edit((own) => {
              own.pointing = POINTINGS.find((each) => each === value) ?? own.pointing
            })
          }
        />
        <OptionalQuantity
          label="Typed loss of the joint"
          field="typedLoss"
          rule="loss"
          quantity={gap.typedLoss}
          first={() => quantityOf(0.5, 'dB')}
          find={find}
        />
        {last && bonded ? (
          <p className="quiet wide">The movement on bonding stands with the assembly, under Yield.</p>
        ) : (
          <DriftFields joint={gap} find={find} bonded={bonded} />
        )}
      </div>
    </fieldset>
  )
}
