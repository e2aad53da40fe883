// Finding parts by words.

/** Whether every word of the search occurs in the part's name, remark or kind. */
export function matchesSearch(part: object, search: string): boolean {
  const plain = (text: string) => text.toLowerCase().replaceAll('µ', 'u')
  const text = plain(JSON.stringify(part))
  return plain(search)
    .trim()
    .split(/\s+/)
    .every((word) => text.includes(word))
}
