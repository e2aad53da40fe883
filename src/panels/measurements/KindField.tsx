// The kind of an imported measurement, for where the reader guessed wrong. What the other kind needs is requested first;
// the change is one undo step.

import { useRef, useState } from 'react'
import {
  ANGLE_UNITS,
  type AngleUnit,
  type Facts,
  factForKind,
  isTableKind,
  measurementAs,
  needsAngleUnit,
  possibleKinds,
  type TableKind,
} from '../../measure/index'
import { quantityOf } from '../../model/quantity/quantity'
import type { Measurement } from '../../model/schema/measurement'
import type { Project } from '../../model/schema/project'
import { METHOD_NAMES } from '../../model/words/measurement'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'

/** A start for what no file of the other kind would have said; an estimate, to be replaced. */
function firstFacts(project: Project, measurement: Measurement, kind: TableKind): Facts {
  const fact = factForKind(measurement, kind)
  if (fact === 'wavelength') return { wavelength: { ...project.requirements.wavelength } }
  return fact === 'probeMfd' ? { probeMfd: quantityOf(10.4, 'um', 'estimate') } : {}
}

const unitChoices = (toAngle: boolean) =>
  Object.keys(ANGLE_UNITS).map((unit) => {
    const shown = unit === 'deg' ? '1°' : `1 ${unit}`
    return { value: unit, label: toAngle ? `imported 1 µm = ${shown}` : `imported ${shown} = 1 µm` }
  })

export function KindField({
  project,
  measurement,
}: {
  readonly project: Project
  readonly measurement: Measurement
}) {
  const kinds = possibleKinds(measurement)
  const [chosen, setWanted] = useState<TableKind | null>(null)
  const wanted = chosen === measurement.method ? null : chosen
  const [unit, setUnit] = useState<AngleUnit>('deg')
  const field = useRef<HTMLSelectElement>(null)
  if (kinds.length < 2) return null
  const change = (kind: TableKind) => {
    const next = measurementAs(measurement, kind, firstFacts(project, measurement, kind), unit)
    if (next === null) return
    editProject((draft) => {
      const at = draft.measurements.findIndex((each) => each.id === measurement.id)
      if (at >= 0) draft.measurements[at] = next
    })
    decided()
  }
  /** The question goes, and the focus is where it was asked. */
  const decided = () => {
    setWanted(null)
    field.current?.focus()
  }
  const missing = wanted === null ? null : factForKind(measurement, wanted)
  return (
    <>
      <ChoiceField
        ref={field}
        label="Kind"
        value={wanted ?? measurement.method}
        choices={kinds.map((value) => ({ value, label: METHOD_NAMES[value] }))}
        onChoose={(value) => {
          const kind = isTableKind(value) && value !== measurement.method ? value : null
          if (kind !== null && !needsAngleUnit(measurement, kind)) change(kind)
          else setWanted(kind)
        }}
      />
      {wanted !== null && (
        <fieldset className="questions">
          <legend>{METHOD_NAMES[wanted]}</legend>
          <ChoiceField
            label="Coordinate as imported"
            value={unit}
            choices={unitChoices(wanted === 'far-field')}
            onChoose={(value) => setUnit(value === 'mrad' || value === 'rad' ? value : 'deg')}
          />
          {missing !== null && (
            <p className="quiet origin">
              {missing === 'wavelength'
                ? 'The wavelength is taken from Requirements.'
                : 'The probe MFD is preset to 10.4 µm, an estimate: enter the actual value.'}
            </p>
          )}
          <p className="decide">
            <button type="button" className="primary" onClick={() => change(wanted)}>
              Change kind
            </button>
            <button type="button" onClick={decided}>
              Cancel
            </button>
          </p>
        </fieldset>
      )}
    </>
  )
}
