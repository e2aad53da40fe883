// What the interface must do.

import { useId } from 'react'
import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import { LOSS_BASES, type Requirements } from '../../model/requirements'
import { editProject, useWorkbench } from '../../store/workbench'
import { Cautions } from '../app/Cautions'
import { QuantityField } from '../fields/QuantityField'

interface Row {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (requirements: Requirements) => Quantity | undefined
}

const ROWS: readonly Row[] = [
  { label: 'Wavelength', rule: 'wavelength', pick: (r) => r.wavelength },
  { label: 'Band from', rule: 'wavelength', pick: (r) => r.wavelengthMin },
  { label: 'Band to', rule: 'wavelength', pick: (r) => r.wavelengthMax },
  { label: 'Pitch', rule: 'pitch', pick: (r) => r.pitch },
  { label: 'Loss limit', rule: 'loss', pick: (r) => r.lossLimit },
  { label: 'Return loss, at least', rule: 'returnLoss', pick: (r) => r.returnLoss },
  { label: 'Lowest temperature', rule: 'temperature', pick: (r) => r.temperatureMin },
  { label: 'Highest temperature', rule: 'temperature', pick: (r) => r.temperatureMax },
  { label: 'Station, lateral ±', rule: 'lateralAccuracy', pick: (r) => r.station.lateral },
  { label: 'Station, axial ±', rule: 'lateralAccuracy', pick: (r) => r.station.axial },
  { label: 'Station, angular ±', rule: 'angularAccuracy', pick: (r) => r.station.angular },
]

function BasisField({ basis }: { readonly basis: Requirements['lossBasis'] }) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Loss limit holds for</label>
      <select
        id={id}
        value={basis}
        onChange={(event) => {
          const chosen = LOSS_BASES.find((each) => each === event.target.value)
          if (chosen === undefined) return
          editProject((draft) => {
            draft.requirements.lossBasis = chosen
          })
        }}
      >
        {LOSS_BASES.map((each) => (
          <option key={each}>{each}</option>
        ))}
      </select>
    </div>
  )
}

export function RequirementsPage() {
  const requirements = useWorkbench((state) => state.project.requirements)
  return (
    <div className="page">
      <h1>Requirements</h1>
      <div className="field-grid">
        {ROWS.map((row) => {
          const quantity = row.pick(requirements)
          if (quantity === undefined) return null
          return (
            <QuantityField
              key={row.label}
              label={row.label}
              quantity={quantity}
              ruleName={row.rule}
              find={(draft: Project) => row.pick(draft.requirements)}
            />
          )
        })}
        <BasisField basis={requirements.lossBasis} />
      </div>
      <Cautions />
    </div>
  )
}
