// A fibre: its mode by diameter or by core, its index, whether it is polarisation-maintaining.

import { quantityOf } from '../../model/quantity/quantity'
import type { FibreEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { IndexField } from '../../ui/fields/IndexField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { ComputedMode } from './ComputedMode'
import { ModeOverWavelengthFields } from './ModeOverWavelength'
import { FibreShapeFields } from './modeShape/ModeShapeFields'
import { PartFrame } from './PartFrame'

const MODE_CHOICES = [
  { value: 'mfd', label: 'mode-field diameter' },
  { value: 'core', label: 'core geometry' },
]
const KEEPS = [
  { value: 'no', label: 'no' },
  { value: 'yes', label: 'yes' },
  { value: 'made to order', label: 'yes, made to order' },
]
const YES_NO = ['no', 'yes'].map((value) => ({ value, label: value }))

export function FibreEditor({ project, fibre }: { readonly project: Project; readonly fibre: FibreEntry }) {
  const find = (draft: Project) => byId(draft.fibres, fibre.id)
  const edit = (recipe: (own: FibreEntry) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own)
    })
  const chooseMode = (value: string) =>
    edit((own) => {
      if (value === own.mode.kind) return
      own.mode =
        value === 'core'
          ? { kind: 'core', coreDiameter: quantityOf(8.2, 'um'), na: quantityOf(0.12, '1') }
          : { kind: 'mfd', mfdX: quantityOf(10.4, 'um') }
      if (own.modeShape?.kind === 'core') own.modeShape = undefined
    })
  const { mode } = fibre
  return (
    <PartFrame project={project} list="fibres" kind="fibre" part={fibre}>
      <ChoiceField label="Mode defined by" value={mode.kind} choices={MODE_CHOICES} onChoose={chooseMode} />
      {mode.kind === 'mfd' ? (
        <>
          <QuantityField
            label="MFD x"
            quantity={mode.mfdX}
            ruleName="mfd"
            find={(draft) => {
              const own = find(draft)?.mode
              return own?.kind === 'mfd' ? own.mfdX : undefined
            }}
          />
          <ChoiceField
            label="Elliptical"
            value={mode.mfdY === undefined ? 'no' : 'yes'}
            choices={YES_NO}
            onChoose={(value) =>
              edit((own) => {
                if (own.mode.kind !== 'mfd') return
                own.mode.mfdY = value === 'yes' ? { ...own.mode.mfdX } : undefined
              })
            }
          />
          {mode.mfdY !== undefined && (
            <QuantityField
              label="MFD y"
              quantity={mode.mfdY}
              ruleName="mfd"
              find={(draft) => {
                const own = find(draft)?.mode
                return own?.kind === 'mfd' ? own.mfdY : undefined
              }}
            />
          )}
          <ModeOverWavelengthFields
            law={mode.overWavelength}
            mode={mode}
            wavelength={project.requirements.wavelength}
            find={(draft) => {
              const own = find(draft)?.mode
              return own?.kind === 'mfd' ? own : undefined
            }}
          />
        </>
      ) : (
        <>
          <QuantityField
            label="Core diameter"
            quantity={mode.coreDiameter}
            ruleName="coreDiameter"
            find={(draft) => {
              const own = find(draft)?.mode
              return own?.kind === 'core' ? own.coreDiameter : undefined
            }}
          />
          <QuantityField
            label="Numerical aperture"
            quantity={mode.na}
            ruleName="na"
            find={(draft) => {
              const own = find(draft)?.mode
              return own?.kind === 'core' ? own.na : undefined
            }}
          />
        </>
      )}
      <QuantityField
        label="Cladding diameter"
        quantity={fibre.claddingDiameter}
        ruleName="claddingDiameter"
        find={(draft) => find(draft)?.claddingDiameter}
      />
      <FibreShapeFields project={project} fibre={fibre} />
      <IndexField label="Effective index of the mode" source={fibre.index} find={find} />
      <ChoiceField
        label="Polarisation-maintaining"
        value={!fibre.polarisationMaintaining ? 'no' : fibre.madeToOrder === true ? 'made to order' : 'yes'}
        choices={KEEPS}
        onChoose={(value) =>
          edit((own) => {
            own.polarisationMaintaining = value !== 'no'
            own.madeToOrder = value === 'made to order' ? true : undefined
          })
        }
      />
      <OptionalQuantity
        label="Core-cladding concentricity error"
        field="concentricity"
        rule="concentricity"
        quantity={fibre.concentricity}
        first={() => quantityOf(0.5, 'um', 'estimate')}
        find={find}
      />
      {mode.kind === 'core' && <ComputedMode mode={mode} wavelength={project.requirements.wavelength} />}
    </PartFrame>
  )
}
