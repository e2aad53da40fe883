// How the modes of one design are modelled: every fibre, chip end and facet of its path, each once.

import { CHIP_SIDES } from '../../../model/parts/chipEnds'
import type { Candidate } from '../../../model/schema/candidate'
import type { Project } from '../../../model/schema/project'
import { chipEndOwner, facetOwner } from '../crossSection/sectionOwner'
import { FibreShapeFields, SolvedShapeFields } from './ModeShapeFields'

/** The fibres, chip ends and facets of a path, each once. */
function partsOf(project: Project, { chain }: Candidate) {
  const fibreIds = new Set(
    chain.flatMap((each) => (each.kind === 'fibre' || each.kind === 'stub' ? [each.fibreId] : [])),
  )
  const facetIds = new Set(chain.flatMap((each) => (each.kind === 'facet' ? [each.facetId] : [])))
  const chipIds = new Set(chain.flatMap((each) => (each.kind === 'taper chip' ? [each.converterId] : [])))
  const chips = project.converters.flatMap((each) =>
    each.kind === 'taper chip' && chipIds.has(each.id) ? [each] : [],
  )
  return {
    fibres: project.fibres.filter(({ id }) => fibreIds.has(id)),
    owners: [
      ...chips.flatMap((chip) => CHIP_SIDES.map((side) => chipEndOwner(chip, side))),
      ...project.facets.filter(({ id }) => facetIds.has(id)).map(facetOwner),
    ],
  }
}

export function PathShapes({ project, design }: { readonly project: Project; readonly design: Candidate }) {
  const { fibres, owners } = partsOf(project, design)
  return (
    <div className="mode-shapes">
      {fibres.map((fibre) => (
        <FibreShapeFields key={fibre.id} project={project} fibre={fibre} named />
      ))}
      {owners.map((owner) => (
        <SolvedShapeFields
          key={owner.id}
          project={project}
          owner={owner}
          label={`Mode shape of ${owner.name}`}
        />
      ))}
    </div>
  )
}
