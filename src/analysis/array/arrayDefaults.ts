// Apart from the run itself, which a screen loads only with the first one.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'

export const ARRAY_DEFAULTS = { samples: 4096 } as const

/** An array is simulated where several channels end in a gap at the chip. */
export const hasArrayRun = ({ requirements }: Project, { chain }: Pick<Candidate, 'chain'>): boolean =>
  requirements.channels > 1 && chain.at(-2)?.kind === 'gap'
