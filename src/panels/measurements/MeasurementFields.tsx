// The conditions of a measurement: changing one evaluates it again.

import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Measurement } from '../../model/schema/measurement'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { editProject } from '../../store/workbench'
import { QuantityField } from '../../ui/fields/QuantityField'

type SettingName =
  | 'wavelength'
  | 'angleScale'
  | 'detectorExponent'
  | 'probeMfd'
  | 'stageScale'
  | 'pixelPitch'
  | 'propagation'
  | 'referencePower'
  | 'lossUncertainty'

interface Setting {
  readonly name: SettingName
  readonly label: string
  readonly rule: RuleName
  /** What one that may be added starts from; one without shows only where the measurement has it. */
  readonly first?: Quantity
}

const WAVELENGTH: Setting = { name: 'wavelength', label: 'Wavelength', rule: 'wavelength' }
const DETECTOR: Setting = {
  name: 'detectorExponent',
  label: 'Detector linearity exponent',
  rule: 'detectorExponent',
}
const DETECTOR_TO_STATE: Setting = { ...DETECTOR, first: quantityOf(1, '1', 'estimate') }
const PROBE: Setting = { name: 'probeMfd', label: 'Probe MFD', rule: 'mfd' }
const STAGE: Setting = { name: 'stageScale', label: 'Stage scale factor', rule: 'scaleFactor' }
const REFERENCE: Setting = {
  name: 'referencePower',
  label: 'Reference power',
  rule: 'power',
  first: quantityOf(1000, 'uW', 'estimate'),
}

const LOSS_UNCERTAINTY: Setting = {
  name: 'lossUncertainty',
  label: 'Standard uncertainty of a loss',
  rule: 'loss',
}

const SETTINGS: Readonly<Record<Measurement['method'], readonly Setting[]>> = {
  'far-field': [
    WAVELENGTH,
    { name: 'angleScale', label: 'Angular scale factor', rule: 'scaleFactor' },
    DETECTOR,
  ],
  offset: [PROBE, STAGE, DETECTOR, REFERENCE],
  raster: [PROBE, STAGE, DETECTOR_TO_STATE],
  image: [
    { name: 'pixelPitch', label: 'Pixel size in the object plane', rule: 'pixelPitch' },
    DETECTOR_TO_STATE,
  ],
  loopback: [
    { name: 'propagation', label: 'Propagation loss', rule: 'propagationLoss' },
    { name: 'referencePower', label: 'Reference power', rule: 'power' },
  ],
  repeated: [],
  lot: [LOSS_UNCERTAINTY],
  stress: [LOSS_UNCERTAINTY],
}

function settingOf(measurement: Measurement | undefined, name: SettingName): Quantity | undefined {
  return measurement === undefined ? undefined : (Reflect.get(measurement, name) as Quantity | undefined)
}

export function MeasurementFields({ measurement }: { readonly measurement: Measurement }) {
  const find = (draft: Project) => byId(draft.measurements, measurement.id)
  return SETTINGS[measurement.method].map(({ name, label, rule, first }) => {
    const quantity = settingOf(measurement, name)
    if (quantity !== undefined) {
      return (
        <QuantityField
          key={name}
          label={label}
          quantity={quantity}
          ruleName={rule}
          find={(draft) => settingOf(find(draft), name)}
        />
      )
    }
    if (first === undefined) return null
    return (
      <div key={name} className="field">
        <button
          type="button"
          className="subtle"
          onClick={() =>
            editProject((draft) => {
              const own = find(draft)
              if (own !== undefined) Reflect.set(own, name, { ...first })
            })
          }
        >
          Add {label.toLowerCase()}
        </button>
      </div>
    )
  })
}
