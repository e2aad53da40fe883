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

/** Head of the column that says what speaks for and against each other design. */
export const comparedWith = ({ byEngineer }: { readonly byEngineer: boolean }): string =>
  `Compared with the ${byEngineer ? 'selected' : 'proposed'} design`

/** `3 requirements met, 1 not met, 1 not evaluated.` */
export function countsText(counts: StatusCounts): string {
  return `${counts.met} requirement${counts.met === 1 ? '' : 's'} met, ${counts['not met']} not met, ${counts['not known']} not evaluated.`
}

/** A reason without the limit at its end, where the requirement or a column of its own states it. */
export const withoutLimit = (reason: string): string => reason.replace(/; limit [\d.]+ dB/, '')

/**
 * A reason without the number that a column of its own states: nothing for `1.15 dB`, `incoherent sum` for `41.3 dB (incoherent sum)`, and what
 * follows `but` in `2.09 dB, but …`.
 */
export function withoutResult(reason: string, result: string): string {
  if (reason === `${result} dB`) return ''
  const contrast = `${result} dB, but `
  if (reason.startsWith(contrast)) return reason.slice(contrast.length)
  const start = `${result} dB (`
  const end = reason.indexOf(')')
  if (!reason.startsWith(start) || end < 0) return reason
  return `${reason.slice(start.length, end)}${reason.slice(end + 1)}`
}

/** Why a design falls short; empty where it does not. */
export function shortfall(verdicts: readonly Verdict[]): string {
  return musts(verdicts)
    .filter((each) => each.status === 'not met')
    .map(({ label, reason }) => `${label}: ${withoutLimit(reason)}`)
    .join('; ')
}
