// Cache of the most recently used results, with the serialised inputs as keys.

/** A function that computes a result once per key; beyond `most` it discards the least recently used one. */
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
