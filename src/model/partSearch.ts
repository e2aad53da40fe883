// Finding parts by words.

/** Whether every word of the search stands somewhere in the part's name, remark or kind. */
export function matchesSearch(part: object, search: string): boolean {
  const text = JSON.stringify(part).toLowerCase()
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word))
}
