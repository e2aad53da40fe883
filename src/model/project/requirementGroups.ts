// Edits of what is mandatory, desirable, or one of several alternatives.

import type { Requirements } from '../schema/requirements'

type Groups = Pick<Requirements, 'wishes' | 'eitherOr'>

/** Makes a requirement desirable or mandatory. */
export function setWish(own: Groups, id: string, wish: boolean): void {
  const others = (own.wishes ?? []).filter((each) => each !== id)
  own.wishes = wish ? [...others, id] : others
}

/** The others of the group that a requirement is in; empty where it is in none. */
export function alternativesOf({ eitherOr = [] }: Groups, id: string): readonly string[] {
  return (eitherOr.find((group) => group.includes(id)) ?? []).filter((each) => each !== id)
}

/** Takes a requirement out of its group; a group of one is none. */
export function withoutAlternative(own: Groups, id: string): void {
  own.eitherOr = (own.eitherOr ?? [])
    .map((group) => group.filter((each) => each !== id))
    .filter((group) => group.length > 1)
}

/** Makes one of two requirements suffice; where `other` has a group already, `id` joins it. */
export function addAlternative(own: Groups, id: string, other: string): void {
  if (id === other) return
  withoutAlternative(own, id)
  const groups = own.eitherOr ?? []
  const joined = groups.some((group) => group.includes(other))
  own.eitherOr = joined
    ? groups.map((group) => (group.includes(other) ? [...group, id] : group))
    : [...groups, [other, id]]
}

/** Removes a requirement that has been withdrawn. */
export function forgetRequirement(own: Groups, id: string): void {
  setWish(own, id, false)
  withoutAlternative(own, id)
}
