// What the modes of one design are taken to be: every fibre and facet of its path, each once.

import type { Candidate } from '../../../model/schema/candidate'
import type { Project } from '../../../model/schema/project'
import { FacetShapeFields, FibreShapeFields } from './ModeShapeFields'

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

export function PathShapes({ project, design }: { readonly project: Project; readonly design: Candidate }) {
  const { fibres, facets } = partsOf(project, design)
  return (
    <div className="mode-shapes">
      {fibres.map((fibre) => (
        <FibreShapeFields key={fibre.id} project={project} fibre={fibre} named />
      ))}
      {facets.map((facet) => (
        <FacetShapeFields key={facet.id} project={project} facet={facet} named />
      ))}
    </div>
  )
}
