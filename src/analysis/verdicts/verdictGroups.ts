// Desirable requirements, and groups of alternatives of which one suffices.

import type { Requirements } from '../../model/schema/requirements'
import type { Verdict, VerdictStatus } from '../results/verdict'

function statusOfAny(members: readonly Verdict[]): VerdictStatus {
  if (members.some(({ status }) => status === 'met')) return 'met'
  return members.some(({ status }) => status === 'not known') ? 'not known' : 'not met'
}

function groupOf(members: readonly Verdict[], number: number, wish: boolean): Verdict {
  const status = statusOfAny(members)
  const decisive = members.filter((each) => each.status === status)
  const needs = status === 'not known' ? decisive.find((each) => each.needs !== undefined)?.needs : undefined
  return {
    id: `either-${number}`,
    label: members.map(({ label }) => label).join(' or '),
    status,
    reason: decisive.map(({ label, reason }) => `${label}: ${reason}`).join('; '),
    alternatives: members,
    ...(wish && { wish: true }),
    ...(needs !== undefined && { needs }),
  }
}

/**
 * The verdicts with desirable requirements marked and their groups as one verdict each, at the place of the first member. A group is desirable
 * where all its members are. A requirement belongs to the first group that names it.
 */
export function groupedVerdicts(
  { wishes = [], eitherOr = [] }: Pick<Requirements, 'wishes' | 'eitherOr'>,
  verdicts: readonly Verdict[],
): readonly Verdict[] {
  const marked = verdicts.map((each) => (wishes.includes(each.id) ? { ...each, wish: true } : each))
  const groups = eitherOr.map((ids) => marked.filter(({ id }) => ids.includes(id)))
  const groupAt = (each: Verdict) =>
    groups.findIndex((members) => members.length > 1 && members.includes(each))
  return marked.flatMap((each): readonly Verdict[] => {
    const at = groupAt(each)
    const members = (groups[at] ?? []).filter((member) => groupAt(member) === at)
    if (at < 0 || members.length < 2) return [each]
    if (members[0] !== each) return []
    return [
      groupOf(
        members,
        at + 1,
        members.every(({ wish }) => wish === true),
      ),
    ]
  })
}

/** The verdicts that decide: all except those of desirable requirements. */
export const musts = (verdicts: readonly Verdict[]): readonly Verdict[] =>
  verdicts.filter(({ wish }) => wish !== true)
