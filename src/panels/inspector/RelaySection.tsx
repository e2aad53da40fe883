// A two-lens relay: its distances and pose, then lens misalignments and the component in the collimated section.

import { alignedMembers, MEMBER_NAMES } from '../../model/designs/alignOrder'
import { newFilter, newPolariser, requiredIsolator } from '../../model/designs/newElements'
import { quantityOf } from '../../model/quantity/quantity'
import type { Candidate, LensPose, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editElement, findElement } from '../../store/elementEdits'
import { AssemblyFields } from '../../ui/fields/AssemblyFields'
import { DriftFields } from '../../ui/fields/DriftFields'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { RelayAlignment } from '../../ui/fields/RelayAlignment'
import { TextField } from '../../ui/fields/TextField'
import { FacesSection } from './FacesSection'
import { InspectorSection } from './InspectorSection'
import { ANGLE_SPECS, Numbers, OFFSET_SPECS, type Spec } from './Numbers'

const FIELDS = [
  { field: 'frontGap', label: 'Fibre face to lens 1', rule: 'gap' },
  { field: 'stretch', label: 'Collimated section', rule: 'stretch' },
  { field: 'backGap', label: 'Lens 2 to facet', rule: 'gap' },
  ...OFFSET_SPECS,
  { field: 'offsetZ', label: 'Axial shift z', rule: 'offset' },
  ...ANGLE_SPECS,
] as const satisfies readonly Spec<keyof RelayElement & string>[]

const PLACE = [
  { field: 'offsetX', label: 'decentre x', rule: 'offset' },
  { field: 'offsetY', label: 'decentre y', rule: 'offset' },
  { field: 'offsetZ', label: 'axial shift z', rule: 'offset' },
  { field: 'tiltX', label: 'tilt x', rule: 'tilt' },
  { field: 'tiltY', label: 'tilt y', rule: 'tilt' },
] as const satisfies readonly Spec<keyof LensPose & string>[]

const DEVICES = [
  { label: 'Add an isolator', make: requiredIsolator },
  { label: 'Add a filter', make: newFilter },
  { label: 'Add a polariser', make: newPolariser },
] as const

const DEVICE = [
  { field: 'loss', label: 'Insertion loss', rule: 'loss' },
  { field: 'length', label: 'Length', rule: 'stretch' },
  { field: 'index', label: 'Refractive index', rule: 'index' },
  { field: 'clearAperture', label: 'Clear aperture (diameter)', rule: 'aperture' },
] as const

interface OfRelay {
  readonly requirements: Project['requirements']
  readonly relay: RelayElement
  readonly designId: string
}

function DeviceSection({ requirements, relay, designId }: OfRelay) {
  const find = (draft: Project) => findElement(draft, designId, relay.id, 'relay')?.device
  const edit = (recipe: (own: RelayElement) => void) => editElement(designId, relay.id, 'relay', recipe)
  const { device } = relay
  if (device === undefined) {
    return (
      <InspectorSection title="Component in the collimated section" note="none">
        <div className="inspector-actions">
          {DEVICES.map(({ label, make }) => (
            <button
              key={label}
              type="button"
              className="subtle"
              onClick={() =>
                edit((own) => {
                  own.device = make(requirements)
                })
              }
            >
              {label}
            </button>
          ))}
        </div>
      </InspectorSection>
    )
  }
  return (
    <InspectorSection title="Component in the collimated section" note={device.name} open>
      <TextField
        label="Component"
        text={device.name}
        onCommit={(name) =>
          edit((own) => {
            if (own.device !== undefined) own.device.name = name
          })
        }
      />
      <Numbers specs={DEVICE} owner={device} find={find} />
      <OptionalQuantity
        label="Isolation"
        field="isolation"
        rule="returnLoss"
        quantity={device.isolation}
        first={() => quantityOf(30, 'dB')}
        find={find}
        words={['Add', 'Remove']}
      />
      <button
        type="button"
        className="subtle"
        onClick={() =>
          edit((own) => {
            own.device = undefined
          })
        }
      >
        Remove component
      </button>
    </InspectorSection>
  )
}

export function RelaySection({
  project,
  design,
  relay,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly relay: RelayElement
}) {
  const find = (draft: Project) => findElement(draft, design.id, relay.id, 'relay')
  const bonded = project.media.some((each) => each.id === relay.mediumId && each.state === 'adhesive')
  const aligned = alignedMembers(relay)
    .map((member) => MEMBER_NAMES[member])
    .join(', ')
  const atChip = relay === design.chain.findLast(({ kind }) => kind === 'gap' || kind === 'relay')
  return (
    <>
      <div className="inspector-rows">
        <Numbers specs={FIELDS} owner={relay} find={find} />
      </div>
      {(['lens1', 'lens2'] as const).map((lens) => {
        const name = lens === 'lens1' ? 'Lens 1' : 'Lens 2'
        return (
          <InspectorSection key={lens} title={`${name} misalignment`}>
            <Numbers
              specs={PLACE}
              prefix={`${name} `}
              owner={relay[lens]}
              find={(draft) => find(draft)?.[lens]}
            />
          </InspectorSection>
        )
      })}
      <DeviceSection requirements={project.requirements} relay={relay} designId={design.id} />
      <FacesSection joint={relay} designId={design.id} view={undefined} />
      <InspectorSection
        title={`Alignment and ${bonded ? 'cure shift' : 'holder drift'}`}
        note={aligned === '' ? undefined : `${aligned} active`}
      >
        {atChip ? (
          <AssemblyFields candidate={design} />
        ) : (
          <>
            <RelayAlignment relay={relay} find={find} />
            <DriftFields joint={relay} find={find} bonded={bonded} />
          </>
        )}
      </InspectorSection>
      <div className="inspector-line">
        <OptionalQuantity
          label="Relay loss (entered)"
          field="typedLoss"
          rule="loss"
          quantity={relay.typedLoss}
          first={() => quantityOf(1, 'dB')}
          find={find}
          words={['Enter relay loss manually', 'Remove entered loss']}
          whole
        />
      </div>
    </>
  )
}
