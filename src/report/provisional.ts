// Numbers that change once the fields of real joints and lenses are computed: a document with one of them says so, and it is not to
// be signed.

import type { SheetCandidate } from './candidates'

type Awaiting = Pick<SheetCandidate['evaluation'], 'awaitsFit'>

/** The name of a number that awaits a fit. */
export const provisionalLabel = (label: string, { awaitsFit }: Awaiting): string =>
  awaitsFit ? `${label}, provisional` : label

/** The subject of a document made from these evaluations, in every format. */
export const provisionalSubject = (subject: string, evaluations: readonly Awaiting[]): string =>
  evaluations.some(({ awaitsFit }) => awaitsFit) ? `${subject}: PROVISIONAL, not for signature` : subject

/** Which designs wait, and what for; empty where none does. */
export function provisionalText(candidates: readonly SheetCandidate[]): string {
  const names = candidates.filter(({ evaluation }) => evaluation.awaitsFit).map(({ name }) => name)
  return names.length === 0
    ? ''
    : `Provisional, not for signature: the real fields and lens aberration of ${names.join(', ')} are still being computed, and losses with tolerances will change. Print again once they are known.`
}
