// Starts a new candidate of a family from the project's first parts, or says which part is still missing.

import { CANDIDATE_TEMPLATES, type CandidateTemplate } from '../../model/designs/candidateTemplates'
import type { Project } from '../../model/schema/project'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { closeAddDesign, selectDesign, showPage } from '../../store/view'
import { editProject } from '../../store/workbench'

const JOINED = new Intl.ListFormat('en', { type: 'conjunction' })

export function AddCandidate({ project }: { readonly project: Project }) {
  const add = async (template: CandidateTemplate) => {
    const { withFittingLenses } = await import('../../analysis/tolerance/relayLenses')
    const id = freeId('candidate', project.candidates)
    const fitting = withFittingLenses(project, template.make(project, id))
    const candidate = { ...fitting, name: freeName(fitting.name, project.candidates) }
    editProject((draft) => {
      draft.candidates.push(candidate)
    })
    selectDesign(id)
    closeAddDesign()
  }
  if (project.candidates.length >= LIMITS.candidates) {
    return <p className="quiet">A project holds at most {LIMITS.candidates} candidates.</p>
  }
  const missing = CANDIDATE_TEMPLATES.map((template) => template.missing(project))
  return (
    <section className="add-candidate" aria-label="Add a candidate">
      {CANDIDATE_TEMPLATES.map((template, at) =>
        missing[at]?.length === 0 ? (
          <button key={template.id} type="button" onClick={() => void add(template)}>
            Add {template.label.charAt(0).toLowerCase() + template.label.slice(1)}
          </button>
        ) : (
          <p key={template.id} className="quiet">
            {template.label} needs {JOINED.format(missing[at] ?? [])} first.
          </p>
        ),
      )}
      {missing.some((each) => each.length > 0) && (
        <button
          type="button"
          onClick={() => {
            closeAddDesign()
            showPage('parts')
          }}
        >
          Go to the parts
        </button>
      )}
    </section>
  )
}
