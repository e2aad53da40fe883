// Runs that the document asks for and does not have: what the Review screen offers to run, what the command runs, and what
// paper says is missing.

import { isRow } from '../../analysis/array/arrayDefaults'
import type { NeededRun } from '../../analysis/results/verdict'
import { asksAllChannels } from '../../model/project/statedRequirements'
import type { Project } from '../../model/schema/project'
import type { SheetCandidate } from '../candidates'

/** Sizes of the runs that the document asks for, in the app and by the command. */
export const DOCUMENT_RUNS = { samples: 20_000, arrays: 1024 } as const

export interface MissingRun {
  readonly candidateId: string
  readonly name: string
  readonly kind: NeededRun
}

/**
 * Yields of all designs, because each is compared by its percentile; arrays of all where a loss limit applies to all channels
 * together, else of the selected design only. Yields come first: the proposed design may depend on them.
 */
export function missingRuns(
  project: Project,
  candidates: readonly SheetCandidate[],
  chosenId: string,
): readonly MissingRun[] {
  const asksAll = project.requirements.losses.some((each) => asksAllChannels(each, project.requirements))
  const missing = (kind: NeededRun, wanted: (each: SheetCandidate) => boolean): readonly MissingRun[] =>
    candidates.filter(wanted).map(({ id, name }) => ({ candidateId: id, name, kind }))
  return [
    ...missing('yield', (each) => each.yield === null),
    ...missing(
      'array',
      ({ id, array, candidate }) =>
        array === null && isRow(project, candidate) && (asksAll || id === chosenId),
    ),
  ]
}

const OFFER = '"Run missing simulations" on the Review screen'

/** Where a section has no run: what it lacks and how to get it. */
export const runOffer = (kind: NeededRun): string =>
  `Not simulated yet: ${kind === 'yield' ? 'the yield' : 'the array'}. ${OFFER} adds it, and so does the sheet command.`

/** What is missing and how to get it; empty where nothing is. */
export function missingText(missing: readonly MissingRun[]): string {
  const parts = (['yield', 'array'] as const).flatMap((kind) => {
    const many = missing.filter((each) => each.kind === kind).length
    return many === 0 ? [] : [`${many} ${kind} ${many === 1 ? 'run' : 'runs'}`]
  })
  return parts.length === 0
    ? ''
    : `Not simulated yet: ${parts.join(' and ')}. ${OFFER} adds them, and so does the sheet command.`
}
