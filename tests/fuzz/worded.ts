// The formatters put a number that is not finite into words, so that no text shows it. Here they are overheard while they do.

/** The files that word such numbers, as a stack names them. */
const FORMATTERS = /[\\/](?:numerics[\\/]numberText|document[\\/]cells)\./
const MOST_FOUND = 5

const NEAREST = 1
const FURTHEST = 10

/** The callers of whoever calls this function's caller, as many as wanted: each that a stack names takes time. */
function framesAbove(most: number): readonly string[] {
  const limit = Error.stackTraceLimit
  Error.stackTraceLimit = most + 2
  const frames = (new Error().stack ?? '').split('\n').slice(3)
  Error.stackTraceLimit = limit
  return frames
}

/** Where `work` lets a formatter put a number that is not finite into words, the first few, each once. */
export async function wordedNumbers(work: () => unknown): Promise<readonly string[]> {
  const found = new Set<string>()
  const plain = Number.isFinite
  Number.isFinite = (value: unknown) => {
    const finite = plain(value)
    if (!finite && found.size < MOST_FOUND) {
      const frames = framesAbove(NEAREST)
      if (FORMATTERS.test(frames[0] ?? '')) {
        const caller =
          framesAbove(FURTHEST)
            .find((frame) => !FORMATTERS.test(frame))
            ?.trim() ?? 'nobody'
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
