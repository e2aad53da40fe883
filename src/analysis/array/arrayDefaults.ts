// Apart from the run itself, which a screen loads only with the first one.

import { asksAllChannels } from '../../model/project/statedRequirements'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'

export const ARRAY_DEFAULTS = { samples: 4096 } as const

/** Whether a whole row of channels faces the chip, across a gap or through lenses. */
export function isRow({ requirements }: Project, { chain }: Pick<Candidate, 'chain'>): boolean {
  const last = chain.at(-2)?.kind
  return requirements.channels > 1 && (last === 'gap' || last === 'relay')
}

/**
 * Whether the row is simulated with every other run: rows behind lenses take long, and are simulated only where a limit applies to
 * all channels.
 */
export function hasArrayRun(project: Project, candidate: Pick<Candidate, 'chain'>): boolean {
  const { requirements } = project
  return (
    isRow(project, candidate) &&
    (candidate.chain.at(-2)?.kind === 'gap' ||
      requirements.losses.some((each) => asksAllChannels(each, requirements)))
  )
}
