// How many assemblies are simulated; apart from the run itself, which a screen does not load.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { isRow } from '../array/arrayDefaults'

/**
 * Assemblies of a run, of each trial in which one step is made better, and between two pauses: of one channel, and of a row, whose
 * place is searched for every assembly.
 */
export const EFFORT = {
  channel: { samples: 100_000, trial: 32_768, pauseAfter: 4096 },
  row: { samples: 8192, trial: 2048, pauseAfter: 64 },
} as const

/** Assemblies of a run unless another number is requested. */
export function assemblySamples(project: Project, candidate: Candidate): number {
  return EFFORT[isRow(project, candidate) ? 'row' : 'channel'].samples
}
