// The modes of the cross-sections that a project's facets and chip ends are said to have, solved on the spot: seconds each, for callers without
// a page that solves them in the background.

import { coreValue } from '../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../model/schema/crossSection'
import type { Project } from '../../model/schema/project'
import { attemptedSteps, type Outcome } from '../../numerics/outcome'
import { finish } from '../../numerics/steps'
import { facetModeSteps, type SolvedField } from '../crossSection/facetMode'
import { withHolders } from './modeHolders'
import { SECTION_CELLS, wantedSection, withSolvedField } from './portShape'

const MOST_KEPT = 30
/** The latest of them, by key, for whoever asks next: a mode, or why there is none. */
const known = new Map<string, Outcome<SolvedField>>()

function solvedOnce(section: CrossSectionEntry, wavelengthUm: number, key: string): Outcome<SolvedField> {
  const found = known.get(key)
  if (found !== undefined) return found
  const solved = finish(
    attemptedSteps(facetModeSteps({ section, wavelengthUm, fibre: null, cells: SECTION_CELLS })),
  )
  const outcome: Outcome<SolvedField> = solved.ok ? { ok: true, value: solved.value.coupling } : solved
  known.set(key, outcome)
  const [oldest] = known.keys()
  if (known.size > MOST_KEPT && oldest !== undefined) known.delete(oldest)
  return outcome
}

/**
 * A function that gives a project back with those modes in its parts. Each cross-section is solved once. A part whose
 * cross-section has no mode is left unchanged, and `refuse` gets the reason, once.
 */
export function sectionSolver(refuse: (partName: string, reason: string) => void) {
  const refused = new Set<string>()
  const solved = (project: Project): Project => {
    const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
    const lists = withHolders(project, (holder, name) => {
      const wanted = wantedSection(holder, wavelengthUm)
      if (wanted === null) return holder
      const { key, section } = wanted
      const outcome = solvedOnce(section, wavelengthUm, key)
      if (outcome.ok) return withSolvedField(holder, outcome.value, key)
      if (!refused.has(key)) refuse(name, outcome.message)
      refused.add(key)
      return holder
    })
    const isChanged = lists.facets !== project.facets || lists.converters !== project.converters
    return isChanged ? { ...project, ...lists } : project
  }
  return solved
}
