// What the interface must do.

import { requirementFaults } from '../../model/project/requirementFaults'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Project } from '../../model/schema/project'
import type { Requirements } from '../../model/schema/requirements'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { LaserCautions } from '../../ui/cautions/LaserCautions'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { RequirementChoices } from './RequirementChoices'

interface Row {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (requirements: Requirements) => Quantity
}

const LIGHT_ROWS: readonly Row[] = [
  { label: 'Wavelength', rule: 'wavelength', pick: (r) => r.wavelength },
  { label: 'Pitch', rule: 'pitch', pick: (r) => r.pitch },
  { label: 'Loss limit', rule: 'loss', pick: (r) => r.lossLimit },
]

const PLACE_ROWS: readonly Row[] = [
  { label: 'Lowest temperature', rule: 'temperature', pick: (r) => r.temperatureMin },
  { label: 'Highest temperature', rule: 'temperature', pick: (r) => r.temperatureMax },
  { label: 'Station, lateral ±', rule: 'lateralAccuracy', pick: (r) => r.station.lateral },
  { label: 'Station, axial ±', rule: 'lateralAccuracy', pick: (r) => r.station.axial },
  { label: 'Station, angular ±', rule: 'angularAccuracy', pick: (r) => r.station.angular },
]

type OptionalField =
  | 'wavelengthMin'
  | 'wavelengthMax'
  | 'returnLoss'
  | 'extinctionRatio'
  | 'polarisationDependentLoss'
  | 'powerIn'
  | 'faceIrradiance'

interface OptionalRow {
  readonly label: string
  readonly field: OptionalField
  readonly rule: RuleName
  readonly first: (requirements: Requirements) => Quantity
}

const atWavelength = ({ wavelength }: Requirements): Quantity => ({ ...wavelength, tolerance: undefined })

const OPTIONAL_LIGHT: readonly OptionalRow[] = [
  { label: 'Band from', field: 'wavelengthMin', rule: 'wavelength', first: atWavelength },
  { label: 'Band to', field: 'wavelengthMax', rule: 'wavelength', first: atWavelength },
  { label: 'Return loss', field: 'returnLoss', rule: 'returnLoss', first: () => quantityOf(40, 'dB') },
  {
    label: 'Extinction ratio',
    field: 'extinctionRatio',
    rule: 'extinctionRatio',
    first: () => quantityOf(20, 'dB'),
  },
  {
    label: 'Polarisation-dependent loss',
    field: 'polarisationDependentLoss',
    rule: 'loss',
    first: () => quantityOf(0.5, 'dB'),
  },
]

const OPTIONAL_POWER: readonly OptionalRow[] = [
  { label: 'Power into the fibre', field: 'powerIn', rule: 'power', first: () => quantityOf(1, 'mW') },
  {
    label: 'Irradiance a face bears',
    field: 'faceIrradiance',
    rule: 'irradiance',
    first: () => quantityOf(1, 'MW/cm^2'),
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
      first={() => first(requirements)}
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
    <div className="page">
      <h1>Requirements</h1>
      {faults.length > 0 && (
        <ul className="complaints" role="alert">
          {faults.map((fault) => (
            <li key={fault.message}>{fault.message}</li>
          ))}
        </ul>
      )}
      <fieldset className="field-grid">
        <legend>Light and loss</legend>
        <Rows rows={LIGHT_ROWS} requirements={requirements} />
        <RequirementChoices requirements={requirements} />
        <OptionalRows rows={OPTIONAL_LIGHT} requirements={requirements} words={['Require', 'Leave open']} />
      </fieldset>
      <fieldset className="field-grid">
        <legend>Place and assembly</legend>
        <Rows rows={PLACE_ROWS} requirements={requirements} />
      </fieldset>
      <fieldset className="field-grid">
        <legend>Optical power</legend>
        <OptionalRows rows={OPTIONAL_POWER} requirements={requirements} words={['State', 'Drop']} />
      </fieldset>
      <LaserCautions />
      <Cautions />
    </div>
  )
}
