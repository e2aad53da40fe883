// How work grows with its input, in processor time, so that the load of the machine has no influence.

const REPEATS = 3
const TRIES = 5
/** A run is repeated until it has taken this long: some kernels count processor time in ticks of several milliseconds. */
const ENOUGH_US = 40_000
const MOST_RUNS = 400
/** Below this, input of a few characters and what surrounds the work are all that is measured. */
const WORTH_US = 500
/** Twice the input may take three times the work, and so four times the input nine times. */
export const MOST_GROWTH = 9

/** Growth so far below the limit needs no second look: half of what quadratic work shows. */
const CLEARLY_LESS = 6.5

/** Processor time of one run, microseconds. */
function meanUs(work: () => unknown): number {
  const before = process.cpuUsage()
  // The clock is read after every eighth more runs, because reading it takes longer than short work.
  for (let runs = 1, next = 1; ; runs++) {
    work()
    if (runs < next) continue
    next += Math.ceil(next / 8)
    const { user } = process.cpuUsage(before)
    if (user >= ENOUGH_US || runs >= MOST_RUNS) return user / runs
  }
}

const shortestUs = (work: () => unknown) => Math.min(...Array.from({ length: REPEATS }, () => meanUs(work)))

/**
 * Work on an input of four times `size` over that on `size`: 4 where it is linear, 16 where it is quadratic; 1 where there is
 * too little of it to measure.
 */
export function growthOf(work: (size: number) => unknown, size: number): number {
  let least = Number.POSITIVE_INFINITY
  // Garbage collection is included, and comes at any time: what is measured once is a suspicion, what stays is growth.
  for (let tries = 0; tries < TRIES && least > MOST_GROWTH; tries++)
    least = Math.min(least, measured(work, size))
  return least
}

function measured(work: (size: number) => unknown, size: number): number {
  const first = meanUs(() => work(4 * size))
  if (first < WORTH_US) return 1
  const second = meanUs(() => work(size))
  if (first < CLEARLY_LESS * second) return first / second
  const large = shortestUs(() => work(4 * size))
  return large < WORTH_US
    ? 1
    : large /
        Math.max(
          shortestUs(() => work(size)),
          WORTH_US / MOST_GROWTH,
        )
}
