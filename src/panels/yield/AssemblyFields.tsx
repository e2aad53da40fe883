// How the joint at the chip is assembled: which degrees of freedom are aligned on power, and how it moves when bonded.

import { type Candidate, type GapElement, POSE_AXES, type PoseAxis } from '../../model/candidate'
import type { Project } from '../../model/project'
import { quantityOf } from '../../model/quantity'
import { editProject } from '../../store/workbench'
import { QuantityField } from '../fields/QuantityField'

const AXIS_LABELS: Readonly<Record<PoseAxis, string>> = {
  offsetX: 'Offset x',
  offsetY: 'Offset y',
  gap: 'Gap',
  tiltX: 'Tilt x',
  tiltY: 'Tilt y',
  roll: 'Roll',
}
const SHIFTS = ['x', 'y', 'z'] as const

/** Movement of 0.3 um on curing, either way (common practice 0.2 to 0.5 um, no source). */
const newShift = () => quantityOf(0, 'um', 'estimate', { plusMinus: 0.3, distribution: 'normal' })

export function AssemblyFields({ candidate }: { readonly candidate: Candidate }) {
  const gap = candidate.chain.findLast((element) => element.kind === 'gap')
  if (gap?.kind !== 'gap') return null
  const find = (draft: Project): GapElement | undefined => {
    const chain = draft.candidates.find((each) => each.id === candidate.id)?.chain
    const element = chain?.find((each) => each.id === gap.id)
    return element?.kind === 'gap' ? element : undefined
  }
  const edit = (recipe: (own: GapElement) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own)
    })
  const aligned = gap.aligned ?? []
  const toggle = (axis: PoseAxis) =>
    edit((own) => {
      const rest = (own.aligned ?? []).filter((each) => each !== axis)
      own.aligned = aligned.includes(axis) ? rest : [...rest, axis]
    })
  return (
    <fieldset className="assembly">
      <legend>Assembly of the joint at the chip</legend>
      <div className="align-choice">
        <span className="quiet">Aligned on power</span>
        {POSE_AXES.map((axis) => (
          <label key={axis}>
            <input type="checkbox" checked={aligned.includes(axis)} onChange={() => toggle(axis)} />
            {AXIS_LABELS[axis]}
          </label>
        ))}
      </div>
      {aligned.length > 0 && (
        <p className="quiet">
          Their values in the gap count from the best position of each assembly, their ± is what the search
          leaves.
        </p>
      )}
      {gap.bondShift === undefined ? (
        <button
          type="button"
          onClick={() =>
            edit((own) => {
              own.bondShift = { x: newShift(), y: newShift(), z: newShift() }
            })
          }
        >
          Add movement on bonding
        </button>
      ) : (
        <div className="run-settings quantities">
          {SHIFTS.map((axis) => {
            const shift = gap.bondShift?.[axis]
            return shift === undefined ? null : (
              <QuantityField
                key={axis}
                label={`Bonding moves ${axis} by`}
                quantity={shift}
                ruleName="offset"
                find={(draft) => find(draft)?.bondShift?.[axis]}
              />
            )
          })}
          <div>
            <button
              type="button"
              onClick={() =>
                edit((own) => {
                  own.bondShift = undefined
                })
              }
            >
              Remove<span className="visually-hidden"> movement on bonding</span>
            </button>
          </div>
        </div>
      )}
    </fieldset>
  )
}
