// Duplicate or delete the chosen candidate.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { editProject, useWorkbench } from '../../store/workbench'

export function CandidateActions({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const selectCandidate = useWorkbench((state) => state.selectCandidate)
  const duplicate = () => {
    const copy: Candidate = {
      ...structuredClone(candidate),
      id: freeId('candidate', project.candidates),
      name: freeName(`${candidate.name}, copy`, project.candidates),
    }
    editProject((draft) => {
      draft.candidates.push(copy)
    })
    selectCandidate(copy.id)
  }
  const remove = () => {
    const rest = project.candidates.filter((each) => each.id !== candidate.id)
    editProject((draft) => {
      draft.candidates = draft.candidates.filter((each) => each.id !== candidate.id)
    })
    selectCandidate(rest[0]?.id ?? '')
  }
  return (
    <span className="candidate-actions">
      <button type="button" onClick={duplicate} disabled={project.candidates.length >= LIMITS.candidates}>
        Duplicate
      </button>
      <button type="button" onClick={remove}>
        Delete
      </button>
    </span>
  )
}
