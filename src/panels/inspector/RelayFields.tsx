// Every number of a relay: distances, the near guide's place, each lens's own place, and the device between them.

import { type JointName, ofJoint } from '../../model/designs/jointNames'
import { newFilter, newIsolator, newPolariser } from '../../model/designs/newElements'
import type { Quantity } from '../../model/quantity/quantity'
import { quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { LensPlace, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editElement, findElement } from '../../store/elementEdits'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { TextField } from '../../ui/fields/TextField'
import { FacePlaneField } from './FacePlaneField'

interface Spec<Field extends string> {
  readonly field: Field
  readonly label: string
  readonly rule: RuleName
}

const DISTANCES = [
  { field: 'frontGap', label: 'End face to lens 1', rule: 'gap' },
  { field: 'stretch', label: 'Collimated stretch', rule: 'stretch' },
  { field: 'backGap', label: 'Lens 2 to end face', rule: 'gap' },
] as const satisfies readonly Spec<keyof RelayElement & string>[]

const POSE = [
  { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  { field: 'offsetY', label: 'Offset y', rule: 'offset' },
  { field: 'tiltX', label: 'Tilt x', rule: 'tilt' },
  { field: 'tiltY', label: 'Tilt y', rule: 'tilt' },
  { field: 'roll', label: 'Roll', rule: 'roll' },
  { field: 'nearFaceAngle', label: 'Near face angle', rule: 'faceAngle' },
  { field: 'farFaceAngle', label: 'Far face angle', rule: 'faceAngle' },
] as const satisfies readonly Spec<keyof RelayElement & string>[]

const PLACE = [
  { field: 'offsetX', label: 'x', rule: 'offset' },
  { field: 'offsetY', label: 'y', rule: 'offset' },
  { field: 'offsetZ', label: 'z', rule: 'offset' },
  { field: 'tiltX', label: 'tilt x', rule: 'tilt' },
  { field: 'tiltY', label: 'tilt y', rule: 'tilt' },
] as const satisfies readonly Spec<keyof LensPlace & string>[]

const DEVICES = [
  { label: 'Add an isolator', make: newIsolator },
  { label: 'Add a filter', make: newFilter },
  { label: 'Add a polariser', make: newPolariser },
] as const

const DEVICE = [
  { field: 'loss', label: 'Loss', rule: 'loss' },
  { field: 'length', label: 'Length', rule: 'stretch' },
  { field: 'index', label: 'Index', rule: 'index' },
  { field: 'clearAperture', label: 'Clear aperture, diameter', rule: 'aperture' },
] as const

function Numbers<Field extends string>({
  specs,
  owner,
  find,
  prefix = '',
}: {
  /** Stands before every label, so that numbers of two lenses are told apart. */
  readonly prefix?: string
  readonly specs: readonly Spec<Field>[]
  readonly owner: { readonly [F in Field]: Quantity }
  readonly find: (draft: Project) => { [F in Field]: Quantity } | undefined
}) {
  return specs.map(({ field, label, rule }) => (
    <QuantityField
      key={field}
      label={`${prefix}${label}`}
      quantity={owner[field]}
      ruleName={rule}
      find={(draft) => find(draft)?.[field]}
    />
  ))
}

export function RelayFields({
  relay,
  candidateId,
  name,
}: {
  readonly relay: RelayElement
  readonly candidateId: string
  readonly name: JointName | undefined
}) {
  const find = (draft: Project) => findElement(draft, candidateId, relay.id, 'relay')
  const edit = (recipe: (own: RelayElement) => void) => editElement(candidateId, relay.id, 'relay', recipe)
  return (
    <div className="relay-numbers">
      <fieldset className="gap-group">
        <legend>
          {ofJoint('Relay', name)} <span className="quiet">{name?.between}</span>
        </legend>
        <div className="gap-fields">
          <Numbers specs={DISTANCES} owner={relay} find={find} />
          <Numbers specs={POSE} owner={relay} find={find} />
          <FacePlaneField
            plane={relay.facePlane}
            onChoose={(plane) =>
              edit((own) => {
                own.facePlane = plane
              })
            }
          />
          <OptionalQuantity
            label="Typed loss of the relay"
            field="typedLoss"
            rule="loss"
            quantity={relay.typedLoss}
            first={() => quantityOf(1, 'dB')}
            find={find}
          />
        </div>
      </fieldset>
      {(['lens1', 'lens2'] as const).map((lens) => (
        <fieldset className="gap-group" key={lens}>
          <legend>{lens === 'lens1' ? 'Lens 1' : 'Lens 2'}, off its place</legend>
          <div className="gap-fields">
            <Numbers
              specs={PLACE}
              prefix={lens === 'lens1' ? 'Lens 1 ' : 'Lens 2 '}
              owner={relay[lens]}
              find={(draft) => find(draft)?.[lens]}
            />
          </div>
        </fieldset>
      ))}
      <fieldset className="gap-group relay-device">
        <legend>Device in the stretch</legend>
        {relay.device === undefined ? (
          <div className="chain-actions">
            {DEVICES.map(({ label, make }) => (
              <button
                key={label}
                type="button"
                onClick={() =>
                  edit((own) => {
                    own.device = make()
                  })
                }
              >
                {label}
              </button>
            ))}
          </div>
        ) : (
          <div className="gap-fields">
            <TextField
              label="Device"
              text={relay.device.name}
              onCommit={(name) =>
                edit((own) => {
                  if (own.device !== undefined) own.device.name = name
                })
              }
            />
            <Numbers specs={DEVICE} owner={relay.device} find={(draft) => find(draft)?.device} />
            <OptionalQuantity
              label="Isolation"
              field="isolation"
              rule="returnLoss"
              quantity={relay.device.isolation}
              first={() => quantityOf(30, 'dB')}
              find={(draft) => find(draft)?.device}
            />
            <div className="field">
              <button
                type="button"
                onClick={() =>
                  edit((own) => {
                    own.device = undefined
                  })
                }
              >
                Take the device out
              </button>
            </div>
          </div>
        )}
      </fieldset>
    </div>
  )
}
