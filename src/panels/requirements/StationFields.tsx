// What the alignment station holds, by kind of axis, and the offer to bring the designs to it.

import { useEffect, useMemo, useRef, useState } from 'react'
import { type AxisKind, accuracyRule, heldTo, statedAccuracy } from '../../model/designs/stationAccuracy'
import { stationChanges } from '../../model/designs/stationTolerances'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import type { Requirements } from '../../model/schema/requirements'
import { rounded } from '../../numerics/numberText'
import { useWorkbench } from '../../store/workbench'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { StationUpdate } from './StationUpdate'

const PLACED = ['lateral', 'axial', 'angular'] as const
const ALIGNED = ['lateral', 'axial', 'angular', 'roll'] as const satisfies readonly AxisKind[]

type Active = NonNullable<Requirements['station']['active']>

/** The owner of the figures for active alignment, made where there is none yet. */
function activeOf(draft: Project): Active {
  const { station } = draft.requirements
  station.active ??= {}
  return station.active
}

const DEG = 180 / Math.PI

/** The value used while none is stated, as the first value. */
function first(requirements: Requirements, kind: AxisKind, setting: 'passive' | 'active'): Quantity {
  const stated = statedAccuracy(requirements, kind, setting)
  if (stated !== undefined) return structuredClone(stated)
  return quantityOf(rounded(DEG * heldTo(requirements, kind, setting), 2), 'deg')
}

export function StationFields({ requirements }: { readonly requirements: Requirements }) {
  const project = useWorkbench((state) => state.project)
  const changes = useMemo(() => stationChanges(project), [project])
  const [shown, setShown] = useState(false)
  const designs = new Set(changes.map(({ designId }) => designId)).size
  const tolerances = `${changes.length} ${changes.length === 1 ? 'tolerance' : 'tolerances'}`
  const { station } = requirements
  const status = useRef<HTMLParagraphElement>(null)
  const wasShown = useRef(false)
  // The button that opened the dialog is gone once nothing differs; the focus goes to what is said in its place.
  useEffect(() => {
    if (wasShown.current && !shown && changes.length === 0) status.current?.focus()
    wasShown.current = shown
  }, [shown, changes])
  return (
    <fieldset className="field-grid" data-fields="station">
      <legend>Alignment station</legend>
      {PLACED.map((kind) => (
        <QuantityField
          key={kind}
          label={`Alignment-station accuracy, ${kind} (±)`}
          quantity={station[kind]}
          ruleName={accuracyRule(kind)}
          find={(draft) => draft.requirements.station[kind]}
        />
      ))}
      <div className="requirement-options">
        <OptionalQuantity
          label="Alignment-station accuracy, roll (±)"
          field="roll"
          rule="angularAccuracy"
          quantity={station.roll}
          first={() => first(requirements, 'roll', 'passive')}
          find={(draft) => draft.requirements.station}
        />
        {ALIGNED.map((kind) => (
          <OptionalQuantity<AxisKind>
            key={kind}
            label={`Residual after active alignment, ${kind} (±)`}
            field={kind}
            rule={accuracyRule(kind)}
            quantity={station.active?.[kind]}
            first={() => first(requirements, kind, 'active')}
            find={activeOf}
          />
        ))}
      </div>
      <div className="station-offer">
        <p className="quiet">
          Default tolerance of every positioned axis of new joints and lenses; actively aligned axes use the
          residual where one is given.
          {requirements.channels > 1 &&
            ' Roll (unless given) and yaw of an array follow from the lateral and the axial accuracy, respectively, at both outer channels; neither exceeds the angular accuracy (common practice, no source).'}
        </p>
        <p role="status" ref={status} tabIndex={-1}>
          {changes.length === 0 ? (
            'All positioned axes of the designs have these tolerances.'
          ) : (
            <>
              {tolerances} in {designs} {designs === 1 ? 'design' : 'designs'}{' '}
              {changes.length === 1 ? 'differs' : 'differ'} from these values.{' '}
              <button type="button" onClick={() => setShown(true)}>
                Update designs…
              </button>
            </>
          )}
        </p>
      </div>
      <StationUpdate changes={changes} shown={shown} onClose={() => setShown(false)} />
    </fieldset>
  )
}
