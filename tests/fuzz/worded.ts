// The formatters put a number that is not finite into words, so that no text shows it. Here they are overheard while they do.

/** The files that word such numbers, as a stack names them. */
const FORMATTERS = /[\\/](?:numerics[\\/]numberText|document[\\/]cells)\./
const MOST_FOUND = 5

/** Where `work` lets a formatter put a number that is not finite into words, the first few, each once. */
export async function wordedNumbers(work: () => unknown): Promise<readonly string[]> {
  const found = new Set<string>()
  const plain = Number.isFinite
  Number.isFinite = (value: unknown) => {
    const finite = plain(value)
    if (!finite && found.size < MOST_FOUND) {
      const frames = (new Error().stack ?? '').split('\n').slice(2)
      if (FORMATTERS.test(frames[0] ?? '')) {
        const caller = frames.find((frame) => !FORMATTERS.test(frame))?.trim() ?? 'nobody'
        found.add(`${value} put into words ${caller}`)
      }
    }
    return finite
  }
  try {
    await work()
  } finally {
    Number.isFinite = plain
  }
  return [...found]
}
