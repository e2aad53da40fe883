// Long work as steps: a generator that pauses often, so that the caller can pause, report progress or cancel.

/** Work that yields the share done, 0 to 1, and returns its result. */
export type Steps<T> = Generator<number, T, void>

/** Runs the steps to their end at once. */
export function finish<T>(steps: Generator<unknown, T, void>): T {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** The steps as a part of longer work, which they take from one share of it to another. */
export function* within<T>(from: number, to: number, steps: Steps<T>): Steps<T> {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
    yield from + (to - from) * step.value
  }
}
