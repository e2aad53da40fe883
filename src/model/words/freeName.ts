// Ids and names that no other entry has.

import { LIMITS } from './limits'

/** The first id of the form `stem-1`, `stem-2` … that no entry has. */
export function freeId(stem: string, entries: readonly { readonly id: string }[]): string {
  const taken = new Set(entries.map((entry) => entry.id))
  let number = 1
  while (taken.has(`${stem}-${number}`)) number += 1
  return `${stem}-${number}`
}

/** The name, or with the first number behind it that no entry has; at most as long as a name may be. */
export function freeName(name: string, entries: readonly { readonly name: string }[]): string {
  const taken = new Set(entries.map((entry) => entry.name))
  const cut = (tail: string) => `${name.slice(0, LIMITS.nameCharacters - tail.length)}${tail}`
  let free = cut('')
  for (let number = 2; taken.has(free); number++) free = cut(` ${number}`)
  return free
}
