// The place in the app as the fragment of an address, and back: `#/design/stub%20a/tolerance`.

/** A page, the entry of it that is shown, and the tab of that entry. */
export interface PageAddress {
  readonly page: string
  readonly item?: string
  readonly tab?: string
}

const LONGEST = 2000

/** What a fragment begins with that holds a whole project. */
export const PROJECT_HEAD = '#project='
export const isProjectLink = (fragment: string): boolean => fragment.startsWith(PROJECT_HEAD)

/** The fragment of a place, with its `#`. A tab without an item keeps its position by an empty step. */
export function addressFragment({ page, item, tab }: PageAddress): string {
  const steps = tab === undefined ? (item === undefined ? [page] : [page, item]) : [page, item ?? '', tab]
  return `#/${steps.map(encoded).join('/')}`
}

/** The place of a fragment, or null where it is none: anything else after `#` is not ours. */
export function addressOf(fragment: string): PageAddress | null {
  if (!fragment.startsWith('#/') || fragment.length > LONGEST) return null
  const [page = '', item = '', tab = '', ...more] = fragment.slice(2).split('/').map(decoded)
  if (page === '' || more.length > 0) return null
  return { page, ...(item === '' ? {} : { item }), ...(tab === '' ? {} : { tab }) }
}

function decoded(step: string): string {
  try {
    return decodeURIComponent(step)
  } catch {
    return '' // a stray per cent sign
  }
}

/** Colons may stay as they are, and read better so. */
function encoded(step: string): string {
  return encodeURIComponent(step).replaceAll('%3A', ':')
}
