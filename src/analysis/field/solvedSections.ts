// The modes of the cross-sections that a project's facets and chip ends are said to have, solved on the spot: seconds each, for callers without
// a page that solves them in the background.

import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { attemptedSteps } from '../../numerics/outcome'
import { facetModeSteps, type SolvedField } from '../crossSection/facetMode'
import { withHolders } from './modeHolders'
import { SECTION_CELLS, wantedSection, withSolvedField } from './portShape'

/**
 * A function that gives a project back with those modes in its parts. It solves each cross-section once. A part whose
 * cross-section has no mode is left unchanged, and `refuse` gets the reason.
 */
export function sectionSolver(refuse: (partName: string, reason: string) => void) {
  const known = new Map<string, SolvedField | null>()
  const solved = (project: Project): Project => {
    const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
    const lists = withHolders(project, (holder, name) => {
      const wanted = wantedSection(holder, wavelengthUm)
      if (wanted === null) return holder
      const { key, section } = wanted
      if (!known.has(key)) {
        const steps = attemptedSteps(
          facetModeSteps({ section, wavelengthUm, fibre: null, cells: SECTION_CELLS }),
        )
        let step = steps.next()
        while (!step.done) step = steps.next()
        const outcome = step.value
        if (!outcome.ok) refuse(name, outcome.message)
        known.set(key, outcome.ok ? outcome.value.coupling : null)
      }
      const field = known.get(key)
      return field ? withSolvedField(holder, field, key) : holder
    })
    const isChanged = lists.facets !== project.facets || lists.converters !== project.converters
    return isChanged ? { ...project, ...lists } : project
  }
  return solved
}
