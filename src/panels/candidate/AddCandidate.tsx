// Starts a new candidate from the project's first parts, or says which part is still missing.

import type { Candidate } from '../../model/candidate'
import { LIMITS } from '../../model/limits'
import { buttCandidate, freeId, stubCandidate } from '../../model/newParts'
import type { Project } from '../../model/project'
import { editProject, useWorkbench } from '../../store/workbench'

function missingParts(project: Project): string {
  const missing = [
    project.fibres.length === 0 ? 'a fibre' : '',
    project.facets.length === 0 ? 'a facet' : '',
    project.media.length === 0 ? 'a gap medium' : '',
  ].filter((each) => each !== '')
  return missing.join(', ')
}

export function AddCandidate({ project }: { readonly project: Project }) {
  const selectCandidate = useWorkbench((state) => state.selectCandidate)
  const showPage = useWorkbench((state) => state.showPage)
  const missing = missingParts(project)
  if (missing !== '') {
    return (
      <p className="quiet">
        A candidate needs {missing} first.{' '}
        <button type="button" onClick={() => showPage('parts')}>
          Go to the parts
        </button>
      </p>
    )
  }
  if (project.candidates.length >= LIMITS.candidates) {
    return <p className="quiet">A project holds at most {LIMITS.candidates} candidates.</p>
  }
  const [fibre, other] = project.fibres
  const facetId = project.facets[0]?.id ?? ''
  const mediumId = project.media[0]?.id ?? ''
  const fibreId = fibre?.id ?? ''
  const add = (candidate: Candidate) => {
    editProject((draft) => {
      draft.candidates.push(candidate)
    })
    selectCandidate(candidate.id)
  }
  const id = freeId('candidate', project.candidates)
  return (
    <div className="add-candidate">
      <button type="button" onClick={() => add(buttCandidate(id, fibreId, facetId, mediumId))}>
        Add fibre at the facet
      </button>
      <button
        type="button"
        onClick={() => add(stubCandidate(id, fibreId, other?.id ?? fibreId, facetId, mediumId))}
      >
        Add spliced stub
      </button>
    </div>
  )
}
