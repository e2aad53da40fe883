// Sizes of panes, kept in this browser. What is kept is checked: another version of the app may have written it.

type PaneSizes = Readonly<Record<string, number>>

const keyOf = (group: string) => `modeseam-panes-${group}`

/** The text as sizes in per cent of exactly these panes, or null. */
function readSizes(text: string | null, ids: readonly string[]): PaneSizes | null {
  let kept: unknown = null
  try {
    kept = JSON.parse(text ?? 'null')
  } catch {
    return null
  }
  if (typeof kept !== 'object' || kept === null) return null
  const sizes = ids.map((id) => Reflect.get(kept, id) as unknown)
  const sound = sizes.every((size) => typeof size === 'number' && size >= 0 && size <= 100)
  const whole = (sizes as number[]).reduce((sum, size) => sum + size, 0)
  if (!sound || Object.keys(kept).length !== ids.length || Math.abs(whole - 100) > 0.5) return null
  return Object.fromEntries(ids.map((id, at) => [id, sizes[at] as number]))
}

/** The kept sizes of a group of panes, or null where there are none that fit it. */
export function keptSizes(group: string, ids: readonly string[]): PaneSizes | null {
  try {
    return readSizes(localStorage.getItem(keyOf(group)), ids)
  } catch {
    return null // blocked storage: the sizes then last as long as the page
  }
}

export function keepSizes(group: string, sizes: PaneSizes): void {
  try {
    localStorage.setItem(keyOf(group), JSON.stringify(sizes))
  } catch {
    // As above: nothing else depends on it.
  }
}
