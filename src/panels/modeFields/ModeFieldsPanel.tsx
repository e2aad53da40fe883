// The mode fields of a candidate: what each mode is taken to be, the pictures, and the loss by fields against Gaussians.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { JointFields } from './JointFields'
import { FacetShapeFields, FibreShapeFields } from './ModeShapeFields'
import '../tolerance/tolerance.css'
import './modeFields.css'

/** The fibres and facets of a chain, each once. */
function partsOf(project: Project, { chain }: Candidate) {
  const fibreIds = new Set(
    chain.flatMap((each) => (each.kind === 'fibre' || each.kind === 'stub' ? [each.fibreId] : [])),
  )
  const facetIds = new Set(chain.flatMap((each) => (each.kind === 'facet' ? [each.facetId] : [])))
  return {
    fibres: project.fibres.filter(({ id }) => fibreIds.has(id)),
    facets: project.facets.filter(({ id }) => facetIds.has(id)),
  }
}

export function ModeFieldsPanel({
  project,
  candidate,
  evaluation,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
}) {
  const { fibres, facets } = partsOf(project, candidate)
  const views = evaluation.joints
  return (
    <section aria-label="Mode fields" className="mode-fields">
      <h2>Mode fields</h2>
      <div className="mode-shapes">
        {fibres.map((fibre) => (
          <FibreShapeFields key={fibre.id} project={project} fibre={fibre} named />
        ))}
        {facets.map((facet) => (
          <FacetShapeFields key={facet.id} project={project} facet={facet} named />
        ))}
      </div>
      {evaluation.relays.length > 0 && (
        <p className="quiet">A relay is computed with Gaussians; shapes count at gaps and abrupt splices.</p>
      )}
      {views.every((view) => view.field === undefined) && (
        <p>
          All modes of this candidate are Gaussians. Choose a shape above: the budget then takes the joint by
          its fields, and shows the difference from the Gaussians as a line.
        </p>
      )}
      {views.map(({ elementId, joint, field }, at) => {
        if (field === undefined) return null
        return (
          <section key={elementId} aria-label={`Fields of joint ${at + 1}`}>
            {views.length > 1 && <h3>Joint {at + 1}</h3>}
            {'refusal' in field.loss ? (
              <p className="complaint">The fields cannot be used: {field.loss.refusal}.</p>
            ) : (
              <JointFields joint={joint} field={field} />
            )}
          </section>
        )
      })}
    </section>
  )
}
