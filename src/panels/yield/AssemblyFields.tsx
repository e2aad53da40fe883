// How the joint at the chip is assembled: which degrees of freedom are aligned on power, and how it moves when bonded.

import { type Candidate, type GapElement, POSE_AXES, type PoseAxis } from '../../model/candidate'
import type { Project } from '../../model/project'
import { editProject, useWorkbench } from '../../store/workbench'
import { DriftFields } from '../candidate/DriftFields'

const AXIS_LABELS: Readonly<Record<PoseAxis, string>> = {
  offsetX: 'Offset x',
  offsetY: 'Offset y',
  gap: 'Gap',
  tiltX: 'Tilt x',
  tiltY: 'Tilt y',
  roll: 'Roll',
}
export function AssemblyFields({ candidate }: { readonly candidate: Candidate }) {
  const media = useWorkbench((state) => state.project.media)
  const gap = candidate.chain.findLast((element) => element.kind === 'gap')
  if (gap?.kind !== 'gap') return null
  const bonded = media.some((each) => each.id === gap.mediumId && each.state === 'adhesive')
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
      {bonded ? (
        <div className="run-settings">
          <DriftFields gap={gap} find={find} bonded />
        </div>
      ) : (
        <p className="quiet">The drift of the holder stands with the numbers of the gap.</p>
      )}
    </fieldset>
  )
}
