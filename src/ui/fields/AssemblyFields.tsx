// How the joint at the chip is assembled: which degrees of freedom are aligned on power, and how it moves when bonded.

import { switchSetting } from '../../model/designs/stationTolerances'
import type { Candidate, GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { POSE_AXES, type PoseAxis } from '../../model/words/candidate'
import { editProject, useWorkbench } from '../../store/workbench'
import { DriftFields } from './DriftFields'
import { RelayAlignment } from './RelayAlignment'

const AXIS_LABELS: Readonly<Record<PoseAxis, string>> = {
  offsetX: 'Offset x',
  offsetY: 'Offset y',
  gap: 'Gap',
  tiltX: 'Tilt x',
  tiltY: 'Tilt y',
  roll: 'Roll',
}

/** The joint at the chip: the last one in the chain. */
function lastJoint(chain: Candidate['chain']): GapElement | RelayElement | undefined {
  return chain.findLast((element) => element.kind === 'gap' || element.kind === 'relay')
}

/** Ticks or clears a degree of freedom of a gap. */
function toggleAxis(joint: GapElement, axis: PoseAxis): void {
  const rest = (joint.aligned ?? []).filter((each) => each !== axis)
  joint.aligned = rest.length < (joint.aligned ?? []).length ? rest : [...rest, axis]
}

export function AssemblyFields({ candidate }: { readonly candidate: Candidate }) {
  const media = useWorkbench((state) => state.project.media)
  const joint = lastJoint(candidate.chain)
  if (joint === undefined) return null
  const bonded = media.some((each) => each.id === joint.mediumId && each.state === 'adhesive')
  const find = (draft: Project) => {
    const own = byId(draft.candidates, candidate.id)
    return own === undefined ? undefined : lastJoint(own.chain)
  }
  const toggle = (axis: PoseAxis) =>
    editProject((draft) => {
      const own = find(draft)
      if (own?.kind === 'gap') switchSetting(own, () => toggleAxis(own, axis), draft.requirements)
    })
  const findRelay = (draft: Project) => {
    const own = find(draft)
    return own?.kind === 'relay' ? own : undefined
  }
  return (
    <fieldset className="assembly">
      <legend>{joint.kind === 'gap' ? 'Assembly of the joint at the chip' : 'Assembly of the relay'}</legend>
      {joint.kind === 'relay' ? (
        <RelayAlignment relay={joint} find={findRelay} />
      ) : (
        <GapAlignment gap={joint} onToggle={toggle} />
      )}
      <div className="run-settings drift">
        <DriftFields joint={joint} find={find} bonded={bonded} />
      </div>
    </fieldset>
  )
}

function GapAlignment({
  gap: { aligned = [] },
  onToggle,
}: {
  readonly gap: GapElement
  readonly onToggle: (axis: PoseAxis) => void
}) {
  return (
    <>
      <div className="align-choice">
        <span className="quiet">Active alignment</span>
        {POSE_AXES.map((axis) => (
          <label key={axis}>
            <input
              type="checkbox"
              aria-label={`${AXIS_LABELS[axis]}, active alignment`}
              checked={aligned.includes(axis)}
              onChange={() => onToggle(axis)}
            />
            {AXIS_LABELS[axis]}
          </label>
        ))}
      </div>
      {aligned.length > 0 && (
        <p className="quiet">
          The values of these axes are measured from the optimum of each assembly, and their ± is the residual
          misalignment.
        </p>
      )}
    </>
  )
}
