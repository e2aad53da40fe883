// Verdicts counted and in words.

import type { Verdict, VerdictStatus } from '../../analysis/index'
import { musts } from '../../analysis/verdicts/verdictGroups'

export type StatusCounts = Readonly<Record<VerdictStatus, number>>

/** Wishes decide nothing and are not counted. */
export function statusCounts(verdicts: readonly Verdict[]): StatusCounts {
  const decisive = musts(verdicts)
  const count = (status: VerdictStatus) => decisive.filter((each) => each.status === status).length
  return { met: count('met'), 'not met': count('not met'), 'not known': count('not known') }
}

/** A status as it is printed. */
export const statusText = (status: VerdictStatus): string =>
  status === 'not known' ? 'not evaluated' : status

/** `3 requirements met, 1 not met, 1 not evaluated.` */
export function countsText(counts: StatusCounts): string {
  return `${counts.met} requirement${counts.met === 1 ? '' : 's'} met, ${counts['not met']} not met, ${counts['not known']} not evaluated.`
}

/** Why a candidate falls short; empty where it does not. */
export function shortfall(verdicts: readonly Verdict[]): string {
  return musts(verdicts)
    .filter((each) => each.status === 'not met')
    .map(({ label, reason }) => `${label}: ${reason}`)
    .join('; ')
}
