// The cross-section as numbers: substrate, top cladding, layers, cores.

import { newCore, newLayer } from '../../../model/parts/newCrossSection'
import { coreValue, type Quantity } from '../../../model/quantity/quantity'
import type { RuleName } from '../../../model/quantity/quantityRules'
import type { CoreEntry, CrossSectionEntry } from '../../../model/schema/crossSection'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { CORE_PROFILES, type CoreProfile, SECTION_LIMITS } from '../../../model/words/crossSection'
import { freeId } from '../../../model/words/freeName'
import { editProject } from '../../../store/workbench'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { IndexField } from '../../../ui/fields/IndexField'
import { QuantityField } from '../../../ui/fields/QuantityField'
import { TextField } from '../../../ui/fields/TextField'
import { CoreTables } from './CoreTables'

const POLARISATIONS = [
  { value: 'TE', label: 'quasi-TE, E along x' },
  { value: 'TM', label: 'quasi-TM, E along y' },
]

type CoreNumber = 'width' | 'height' | 'sidewall' | 'x' | 'bottom'

interface NumberField {
  readonly field: CoreNumber
  readonly label: string
  readonly rule: RuleName
}

const UNIFORM_NUMBERS: readonly NumberField[] = [
  { field: 'width', label: 'Core width at half height', rule: 'guideSize' },
  { field: 'height', label: 'Height', rule: 'guideSize' },
  { field: 'sidewall', label: 'Sidewall angle (90° = vertical)', rule: 'sidewallAngle' },
  { field: 'x', label: 'Core centre, x', rule: 'corePosition' },
  { field: 'bottom', label: 'Core bottom above substrate', rule: 'corePosition' },
]

/** Of a core without walls: 1/e sizes of the index step. */
const gradedNumbers = (buried: boolean): readonly NumberField[] => [
  { field: 'width', label: 'Index-step full width at 1/e', rule: 'guideSize' },
  {
    field: 'height',
    label: buried ? 'Index-step full height at 1/e' : 'Diffusion depth below surface',
    rule: 'guideSize',
  },
  { field: 'x', label: 'Core centre, x', rule: 'corePosition' },
  { field: 'bottom', label: 'Core bottom above substrate', rule: 'corePosition' },
]

const numbersOf = ({ profile = 'uniform' }: CoreEntry) =>
  profile === 'uniform'
    ? UNIFORM_NUMBERS
    : gradedNumbers(profile === 'buried Gaussian' || profile === 'index map')

const PROFILE_CHOICES = [
  { value: 'uniform', label: 'uniform' },
  { value: 'buried Gaussian', label: 'diffused, buried, Gaussian' },
  { value: 'surface Gaussian', label: 'diffused from surface, Gaussian depth' },
  { value: 'surface erfc', label: 'diffused from surface, erfc depth' },
  { value: 'user profiles', label: 'diffused, user profiles' },
  { value: 'index map', label: 'index map from a table' },
] satisfies readonly { value: CoreProfile; label: string }[]

type FindSection = (draft: Project) => CrossSectionEntry | undefined

type Entry = { id: string; name: string }

/** Name, fields and removal of one layer or core. */
function EntryFields({
  kind,
  entry,
  find,
  remove,
  children,
}: {
  readonly kind: string
  readonly entry: Entry
  readonly find: (draft: Project) => Entry | undefined
  readonly remove: (() => void) | null
  readonly children: React.ReactNode
}) {
  return (
    <fieldset className="section-entry">
      <legend>
        {entry.name}
        {!entry.name.toLowerCase().includes(kind) && <span className="quiet"> {kind}</span>}
      </legend>
      <div className="field-grid">
        <TextField
          label={`Name of the ${kind}`}
          text={entry.name}
          onCommit={(name) =>
            editProject((draft) => {
              const own = find(draft)
              if (own !== undefined) own.name = name
            })
          }
        />
        {children}
      </div>
      {remove !== null && (
        <button type="button" className="subtle" onClick={remove}>
          Remove {entry.name}
        </button>
      )}
    </fieldset>
  )
}

export function SectionFields({
  owner,
  section,
  wavelengthUm,
  find,
}: {
  /** Id of what the cross-section belongs to. */
  readonly owner: string
  readonly section: CrossSectionEntry
  readonly wavelengthUm: number
  readonly find: FindSection
}) {
  const edit = (recipe: (own: CrossSectionEntry) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own)
    })
  const firstBottom = section.cores[0]?.bottom
  return (
    <div>
      <div className="field-grid">
        <ChoiceField
          label="Polarisation"
          value={section.polarisation}
          choices={POLARISATIONS}
          onChoose={(value) =>
            edit((own) => {
              own.polarisation = value === 'TM' ? 'TM' : 'TE'
            })
          }
        />
        <IndexField
          label="Substrate index"
          source={section.substrate.index}
          find={(draft) => find(draft)?.substrate}
        />
        <IndexField
          label="Top cladding index"
          source={section.cover.index}
          find={(draft) => find(draft)?.cover}
        />
      </div>
      {section.cores.map((core) => {
        const own = (draft: Project) => byId(find(draft)?.cores, core.id)
        return (
          <EntryFields
            key={core.id}
            kind="core"
            entry={core}
            find={own}
            remove={
              section.cores.length < 2
                ? null
                : () =>
                    edit((draft) => {
                      draft.cores = draft.cores.filter((each) => each.id !== core.id)
                    })
            }
          >
            <ChoiceField
              label="Index profile"
              value={core.profile ?? 'uniform'}
              choices={PROFILE_CHOICES}
              onChoose={(value) =>
                editProject((draft) => {
                  const entry = own(draft)
                  if (entry !== undefined) entry.profile = CORE_PROFILES.find((each) => each === value)
                })
              }
            />
            {numbersOf(core).map(({ field, label, rule }) => (
              <QuantityField
                key={field}
                label={label}
                quantity={core[field]}
                ruleName={rule}
                find={(draft): Quantity | undefined => own(draft)?.[field]}
              />
            ))}
            {((core.profile ?? 'uniform') === 'uniform' || core.stepOverWavelength === undefined) && (
              <IndexField
                label={(core.profile ?? 'uniform') === 'uniform' ? 'Core index' : 'Peak index of the core'}
                source={core.index}
                find={own}
              />
            )}
            <CoreTables owner={owner} section={section} core={core} wavelengthUm={wavelengthUm} find={own} />
          </EntryFields>
        )
      })}
      {section.layers.map((layer) => {
        const own = (draft: Project) => byId(find(draft)?.layers, layer.id)
        return (
          <EntryFields
            key={layer.id}
            kind="layer"
            entry={layer}
            find={own}
            remove={() =>
              edit((draft) => {
                draft.layers = draft.layers.filter((each) => each.id !== layer.id)
              })
            }
          >
            <QuantityField
              label="Thickness"
              quantity={layer.thickness}
              ruleName="layerThickness"
              find={(draft) => own(draft)?.thickness}
            />
            <IndexField label="Layer index" source={layer.index} find={own} />
          </EntryFields>
        )
      })}
      <p className="part-actions">
        <button
          type="button"
          disabled={section.cores.length >= SECTION_LIMITS.cores}
          onClick={() =>
            edit((own) => {
              const bottomUm = firstBottom === undefined ? 0 : coreValue(firstBottom, 'corePosition')
              own.cores.push(newCore(freeId('core', own.cores), bottomUm))
            })
          }
        >
          Add core
        </button>
        <button
          type="button"
          disabled={section.layers.length >= SECTION_LIMITS.layers}
          onClick={() =>
            edit((own) => {
              own.layers.push(newLayer(freeId('layer', own.layers)))
            })
          }
        >
          Add layer on top
        </button>
        <span className="quiet">
          Heights are measured from the substrate surface. Where cores overlap, the later entry takes
          precedence.
        </span>
      </p>
    </div>
  )
}
