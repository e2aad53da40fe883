// In which order a station aligns the members of a relay, and what they are called.

import type { RelayElement } from '../schema/candidate'
import { RELAY_MEMBERS, type RelayMember } from '../words/candidate'

export const MEMBER_NAMES: Readonly<Record<RelayMember, string>> = {
  lens1: 'lens 1',
  lens2: 'lens 2',
  guide: 'fibre side',
}

/** The order as it is stated; what is omitted follows in the usual order. */
export function alignOrder({
  alignOrder: stated = [],
}: Pick<RelayElement, 'alignOrder'>): readonly RelayMember[] {
  return [...new Set([...stated, ...RELAY_MEMBERS])]
}

/** The axes of the member that are aligned on power, by their names in the element. */
export function alignedAxes(
  { aligned, lens1, lens2 }: RelayElement,
  member: RelayMember,
): ReadonlySet<string> {
  return new Set((member === 'guide' ? aligned : member === 'lens1' ? lens1.aligned : lens2.aligned) ?? [])
}

/** The members that are aligned at all, in their order. */
export function alignedMembers(relay: RelayElement): readonly RelayMember[] {
  return alignOrder(relay).filter((member) => alignedAxes(relay, member).size > 0)
}
