/** The item of that identifier; undefined where the list, the identifier or such an item is missing. */
export function byId<T extends { readonly id: string }>(
  items: readonly T[] | undefined,
  id: string | null | undefined,
): T | undefined {
  return items?.find((each) => each.id === id)
}
