// The modes of the cross-sections that a project's facets are said to have, solved on the spot: seconds each, for where no
// page has them solved beside it.

import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { attemptedSteps } from '../../numerics/outcome'
import { facetModeSteps, type SolvedField } from '../crossSection/facetMode'
import { SECTION_CELLS, wantedSection, withSolvedField } from './portShape'

/**
 * A function that gives a project back with those modes in its facets. It solves each cross-section once. A facet whose
 * cross-section has no mode is left unchanged, and `refuse` gets the reason.
 */
export function sectionSolver(refuse: (facetName: string, reason: string) => void) {
  const known = new Map<string, SolvedField | null>()
  const solved = (project: Project): Project => {
    const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
    const facets = project.facets.map((facet) => {
      const wanted = wantedSection(facet, wavelengthUm)
      if (wanted === null) return facet
      const { key, section } = wanted
      if (!known.has(key)) {
        const steps = attemptedSteps(
          facetModeSteps({ section, wavelengthUm, fibre: null, cells: SECTION_CELLS }),
        )
        let step = steps.next()
        while (!step.done) step = steps.next()
        const outcome = step.value
        if (!outcome.ok) refuse(facet.name, outcome.message)
        known.set(key, outcome.ok ? outcome.value.coupling : null)
      }
      const field = known.get(key)
      return field ? withSolvedField(facet, field, key) : facet
    })
    const isChanged = facets.some((facet, at) => facet !== project.facets[at])
    return isChanged ? { ...project, facets } : project
  }
  return solved
}
