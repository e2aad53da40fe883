// Looks through plain results for numbers that are not finite, and through texts for their names.

/**
 * Fields whose documented value may be infinite: the radius of a flat lens face, and the degrees of freedom of an uncertainty
 * that is taken as exactly known (JCGM 100:2008, G.4.2).
 */
const MAY_BE_INFINITE: ReadonlySet<string> = new Set([
  'frontRadiusUm',
  'backRadiusUm',
  'degreesOfFreedom',
  'effectiveDegreesOfFreedom',
])
const MOST_FOUND = 5

/** Paths of the non-finite numbers in a result, the first few. Functions are skipped, typed arrays and maps are searched. */
export function nonFinitePaths(root: unknown): readonly string[] {
  const found: string[] = []
  const seen = new Set<object>()
  const walk = (value: unknown, path: string, key: string): void => {
    if (found.length >= MOST_FOUND) return
    if (typeof value === 'number') {
      if (!Number.isFinite(value) && !MAY_BE_INFINITE.has(key)) found.push(`${path} = ${value}`)
      return
    }
    if (typeof value === 'string') {
      const name = notANumberIn(value)
      if (name !== null) found.push(`${path} says ${name}: ${value.slice(0, 120)}`)
      return
    }
    if (typeof value !== 'object' || value === null || seen.has(value)) return
    seen.add(value)
    if (ArrayBuffer.isView(value)) {
      if (value instanceof DataView) return
      const numbers = value as unknown as ArrayLike<number>
      for (let i = 0; i < numbers.length; i++) {
        if (!Number.isFinite(numbers[i])) {
          found.push(`${path}[${i}] = ${numbers[i]}`)
          return
        }
      }
      return
    }
    if (value instanceof Map) {
      for (const [name, each] of value) walk(each, `${path}(${String(name)})`, String(name))
      return
    }
    for (const [name, each] of Object.entries(value)) walk(each, `${path}.${name}`, name)
  }
  walk(root, '', '')
  return found
}

/** What a reader of a text must never see. */
export function notANumberIn(text: string): string | null {
  return /(?<![\w"'])[-−+]?(NaN|Infinity|undefined|\[object Object\])(?!\w)/.exec(text)?.[1] ?? null
}
