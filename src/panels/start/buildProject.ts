// From the brief to the open project: the facet's mode is solved where only its core is known, then every family is drafted.

import type { FacetMode } from '../../analysis/crossSection/facetMode'
import { type Brief, type SolvedFacet, sectionOf } from '../../analysis/proposals/brief'
import { type Proposal, proposeSteps } from '../../analysis/proposals/proposeProject'
import { coreValue } from '../../model/quantity/quantity'
import type { Outcome } from '../../numerics/outcome'

const CELLS = { x: 100, y: 76 }
const SOLVED_SHARE = 0.5

export interface BuildProgress {
  readonly words: string
  /** 0 to 1. */
  readonly share: number
}

async function solved(
  brief: Brief,
  signal: AbortSignal,
  tell: (progress: BuildProgress) => void,
): Promise<SolvedFacet | null> {
  const section = sectionOf(brief)
  if (section === null) return null
  const { runModeJob } = await import('../../jobs/modeSolveClient')
  const wavelengthUm = coreValue(brief.wavelength, 'wavelength')
  const outcome: Outcome<FacetMode> = await runModeJob(
    'solve',
    { section, wavelengthUm, fibre: null, cells: CELLS },
    {
      signal,
      onProgress: (share) => tell({ words: 'Solving the facet mode…', share: SOLVED_SHARE * share }),
    },
  )
  if (!outcome.ok) throw new Error(outcome.message)
  const { widths, effectiveIndex } = outcome.value
  return { mfdXUm: widths.gaussian.mfdUm.x, mfdYUm: widths.gaussian.mfdUm.y, effectiveIndex }
}

/** Builds the project with a pause after each family. Rejects with a sentence where the mode cannot be solved. */
export async function buildProject(
  brief: Brief,
  signal: AbortSignal,
  tell: (progress: BuildProgress) => void,
): Promise<Proposal> {
  const facet = await solved(brief, signal, tell)
  const from = facet === null ? 0 : SOLVED_SHARE
  const steps = proposeSteps(brief, facet)
  for (;;) {
    signal.throwIfAborted()
    const step = steps.next()
    if (step.done) return step.value
    tell({ words: 'Building designs…', share: from + (1 - from) * step.value })
    await new Promise<void>((resolve) => setTimeout(resolve, 0))
  }
}
