// Results remembered by the text of their inputs, the ones used last.

/** A function that makes a result once for a key; it discards the least used beyond `most`. */
export function remembering<T>(most: number): (key: string, make: () => T) => T {
  const known = new Map<string, T>()
  return (key, make) => {
    const found = known.get(key)
    const value = found ?? make()
    known.delete(key)
    known.set(key, value)
    if (known.size > most) {
      const [oldest] = known.keys()
      if (oldest !== undefined) known.delete(oldest)
    }
    return value
  }
}
