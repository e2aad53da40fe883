// The fibre array: pitch, errors of its cores, bow, and what its position is optimised for.

import { plainArray } from '../../analysis/array/block'
import { usualArray } from '../../model/designs/usualArray'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Candidate } from '../../model/schema/candidate'
import type { FibreArray } from '../../model/schema/fibreArray'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { AIM_NAMES, ARRAY_AIMS } from '../../model/words/fibreArray'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'

const FIELDS: readonly {
  readonly field: 'pitch' | 'coreX' | 'coreY' | 'bow'
  readonly label: string
  readonly rule: RuleName
}[] = [
  { field: 'pitch', label: 'Fibre pitch', rule: 'pitch' },
  { field: 'coreX', label: 'Core position x', rule: 'offset' },
  { field: 'coreY', label: 'Core position y', rule: 'offset' },
  { field: 'bow', label: 'Bow, outer above middle', rule: 'offset' },
]

/** A usual array at the pitch that it faces; what it is aligned for stays. */
function newArray(project: Project, candidate: Candidate): FibreArray {
  const { pitch, aim } = plainArray(project, candidate)
  return { ...usualArray(pitch, project.requirements.channels), aim }
}

export function BlockFields({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const edit = (recipe: (own: Candidate) => void) =>
    editProject((draft) => {
      const own = byId(draft.candidates, candidate.id)
      if (own !== undefined) recipe(own)
    })
  const { array } = candidate
  if (array === undefined && project.requirements.channels === 1) {
    return (
      <p>
        One channel: nothing differs from channel to channel. The number of channels is set in Requirements.
      </p>
    )
  }
  if (array === undefined) {
    return (
      <p>
        The fibre array is modelled as perfect, at the pitch of the chip side.{' '}
        <button
          type="button"
          onClick={() =>
            edit((own) => {
              own.array = newArray(project, candidate)
            })
          }
        >
          Define the array
        </button>
      </p>
    )
  }
  return (
    <fieldset className="assembly">
      <legend>
        Array of {project.requirements.channels} {project.requirements.channels === 1 ? 'fibre' : 'fibres'}
      </legend>
      <div className="run-settings quantities">
        {FIELDS.map(({ field, label, rule }) => (
          <QuantityField
            key={field}
            label={label}
            quantity={array[field]}
            ruleName={rule}
            find={(draft) => byId(draft.candidates, candidate.id)?.array?.[field]}
          />
        ))}
        <ChoiceField
          label="Alignment strategy"
          value={array.aim}
          choices={ARRAY_AIMS.map((value) => ({ value, label: AIM_NAMES[value] }))}
          onChoose={(value) =>
            edit((own) => {
              if (own.array !== undefined) {
                own.array.aim = ARRAY_AIMS.find((each) => each === value) ?? own.array.aim
              }
            })
          }
        />
        <div>
          <button
            type="button"
            className="subtle"
            onClick={() =>
              edit((own) => {
                own.array = undefined
              })
            }
          >
            Remove the array
          </button>
        </div>
      </div>
      <p className="quiet">
        Roll, yaw (tilt x) and the residual are those of the joint; active alignment is set in the inspector.
        For facets that differ from channel to channel, set their tolerances to vary per channel in Parts.
      </p>
    </fieldset>
  )
}
