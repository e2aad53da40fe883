// What the interface must do.

import { requirementFaults } from '../../model/project/requirementFaults'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Project } from '../../model/schema/project'
import type { Requirements } from '../../model/schema/requirements'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { IsolatorFields } from './IsolatorFields'
import { LossCriteria } from './LossCriteria'
import { RequirementChoices } from './RequirementChoices'
import { StatedTable } from './StatedTable'
import { StationFields } from './StationFields'
import './requirements.css'

interface Row {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (requirements: Requirements) => Quantity
}

const LIGHT_ROWS: readonly Row[] = [
  { label: 'Wavelength', rule: 'wavelength', pick: (r) => r.wavelength },
  { label: 'Channel pitch', rule: 'pitch', pick: (r) => r.pitch },
]

const PLACE_ROWS: readonly Row[] = [
  { label: 'Minimum operating temperature', rule: 'temperature', pick: (r) => r.temperatureMin },
  { label: 'Maximum operating temperature', rule: 'temperature', pick: (r) => r.temperatureMax },
]

type OptionalField =
  | 'wavelengthMin'
  | 'wavelengthMax'
  | 'returnLossFibre'
  | 'returnLossChip'
  | 'extinctionRatio'
  | 'polarisationDependentLoss'
  | 'powerIn'
  | 'faceIrradiance'

interface OptionalRow {
  readonly label: string
  readonly field: OptionalField
  readonly rule: RuleName
  /** Null where nothing may be assumed. */
  readonly first: ((requirements: Requirements) => Quantity) | null
}

const atWavelength = ({ wavelength }: Requirements): Quantity => ({ ...wavelength, tolerance: undefined })

const OPTIONAL_LIGHT: readonly OptionalRow[] = [
  { label: 'Band start', field: 'wavelengthMin', rule: 'wavelength', first: atWavelength },
  { label: 'Band end', field: 'wavelengthMax', rule: 'wavelength', first: atWavelength },
  {
    label: 'Minimum return loss towards the fibre',
    field: 'returnLossFibre',
    rule: 'returnLoss',
    first: () => quantityOf(40, 'dB'),
  },
  {
    label: 'Minimum return loss towards the chip',
    field: 'returnLossChip',
    rule: 'returnLoss',
    first: () => quantityOf(40, 'dB'),
  },
  {
    label: 'Minimum polarisation extinction ratio (PER)',
    field: 'extinctionRatio',
    rule: 'extinctionRatio',
    first: () => quantityOf(20, 'dB'),
  },
  {
    label: 'Maximum polarisation-dependent loss (PDL)',
    field: 'polarisationDependentLoss',
    rule: 'loss',
    first: () => quantityOf(0.5, 'dB'),
  },
]

const WORDS = ['Add', 'Remove'] as const

const OPTIONAL_POWER: readonly OptionalRow[] = [
  { label: 'Launch power', field: 'powerIn', rule: 'power', first: () => quantityOf(1, 'mW') },
  {
    label: 'Irradiance limit of end faces and coatings',
    field: 'faceIrradiance',
    rule: 'irradiance',
    first: null,
  },
]

function OptionalRows({
  rows,
  requirements,
  words,
}: {
  readonly rows: readonly OptionalRow[]
  readonly requirements: Requirements
  readonly words: readonly [add: string, drop: string]
}) {
  return rows.map(({ label, field, rule, first }) => (
    <OptionalQuantity<OptionalField>
      key={field}
      label={label}
      field={field}
      rule={rule}
      quantity={requirements[field]}
      first={first === null ? null : () => first(requirements)}
      find={(draft) => draft.requirements}
      words={words}
    />
  ))
}

function Rows({
  rows,
  requirements,
}: {
  readonly rows: readonly Row[]
  readonly requirements: Requirements
}) {
  return rows.map((row) => (
    <QuantityField
      key={row.label}
      label={row.label}
      quantity={row.pick(requirements)}
      ruleName={row.rule}
      find={(draft: Project) => row.pick(draft.requirements)}
    />
  ))
}

export function RequirementsPage() {
  const requirements = useWorkbench((state) => state.project.requirements)
  const faults = requirementFaults(requirements)
  return (
    <div className="page requirements">
      <h1>Requirements</h1>
      {faults.length > 0 && (
        <ul className="complaints" role="alert">
          {faults.map((fault) => (
            <li key={fault.message}>{fault.message}</li>
          ))}
        </ul>
      )}
      <fieldset className="field-grid">
        <legend>Optical requirements</legend>
        <Rows rows={LIGHT_ROWS} requirements={requirements} />
        <RequirementChoices requirements={requirements} />
        <div className="requirement-options">
          <OptionalRows rows={OPTIONAL_LIGHT} requirements={requirements} words={WORDS} />
          <IsolatorFields requirements={requirements} />
        </div>
      </fieldset>
      <LossCriteria requirements={requirements} />
      <fieldset className="field-grid">
        <legend>Environment</legend>
        <Rows rows={PLACE_ROWS} requirements={requirements} />
      </fieldset>
      <StationFields requirements={requirements} />
      <fieldset className="field-grid">
        <legend>Optical power</legend>
        <div className="requirement-options">
          <OptionalRows rows={OPTIONAL_POWER} requirements={requirements} words={WORDS} />
        </div>
      </fieldset>
      <StatedTable requirements={requirements} />
      <Cautions />
    </div>
  )
}
