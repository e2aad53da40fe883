// Why a result on screen is not that of the present numbers or of the last run.

import type { RunKind, RunState } from '../../store/runs'

export interface Staleness {
  /** Numbers have changed since; what is offered for the old ones makes no sense for the new. */
  readonly changed: boolean
  /** In words; empty for the result of the last run of the present numbers. */
  readonly reason: string
}

/** Whether a run's result is still that of the project, whose inputs `present` are. */
export function stalenessOf<K extends RunKind>(
  { finished, message, progress }: RunState<K>,
  present: string,
): Staleness {
  if (finished === null) return { changed: false, reason: '' }
  if (finished.inputs !== present) {
    return {
      changed: true,
      reason: 'Out of date: values have changed since this run. Run again.',
    }
  }
  if (message !== '' && progress === null) {
    return { changed: false, reason: 'Out of date: the last run gave no result. This is the previous run.' }
  }
  return { changed: false, reason: '' }
}
