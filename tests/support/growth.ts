// How work grows with its input, in processor time, so that whatever else the machine does plays no part.

const REPEATS = 5
/** Below this the grain of the clock is all that is measured. */
const WORTH_US = 500
/** Twice the input may take three times the work, and so four times the input nine times. */
export const MOST_GROWTH = 9

function shortestUs(work: () => unknown): number {
  const runs = Array.from({ length: REPEATS }, () => {
    const before = process.cpuUsage()
    work()
    return process.cpuUsage(before).user
  })
  return Math.min(...runs)
}

/**
 * Work on an input of four times `size` over that on `size`: 4 where it is linear, 16 where it is quadratic; 1 where there is
 * too little of it to measure.
 */
export function growthOf(work: (size: number) => unknown, size: number): number {
  const large = shortestUs(() => work(4 * size))
  return large < WORTH_US
    ? 1
    : large /
        Math.max(
          shortestUs(() => work(size)),
          WORTH_US / MOST_GROWTH,
        )
}
