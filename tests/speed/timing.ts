// Timings as the benches print them: median and interquartile range over many runs, and whether a limit is met.

export interface Spread {
  readonly median: number
  readonly quarter: number
  readonly threeQuarters: number
  readonly greatest: number
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b)
  const at = (share: number) => {
    const position = share * (sorted.length - 1)
    const low = sorted[Math.floor(position)] ?? Number.NaN
    const high = sorted[Math.ceil(position)] ?? Number.NaN
    return low + (high - low) * (position - Math.floor(position))
  }
  return { median: at(0.5), quarter: at(0.25), threeQuarters: at(0.75), greatest: at(1) }
}

export function timeMs(work: () => void): number {
  const start = performance.now()
  work()
  return performance.now() - start
}

/** What the work takes of the processor, milliseconds: waiting for a busy machine is ignored. */
export function processorMs(work: () => void): number {
  const before = process.cpuUsage()
  work()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

const LOOP_STEPS = 2_000_000

/**
 * Milliseconds of the processor for a fixed loop, two million steps of a square root and an exponential: what this machine does at this moment. A
 * limit as a multiple of it holds on slow and on busy machines too.
 */
export function fixedLoopMs(): number {
  let sum = 0
  const spent = processorMs(() => {
    for (let i = 1; i <= LOOP_STEPS; i++) sum += Math.sqrt(i) * Math.exp(-i / LOOP_STEPS)
  })
  if (!(sum > 0)) throw new Error('the loop was not run')
  return spent
}

export function printSpread(label: string, spread: Spread, unit: string, digits = 3): void {
  const fixed = (value: number) => value.toFixed(digits)
  const range = `${fixed(spread.quarter)} to ${fixed(spread.threeQuarters)}`
  console.log(
    `  ${label}: median ${fixed(spread.median)} ${unit} (middle half ${range}, greatest ${fixed(spread.greatest)})`,
  )
}

/** Prints whether a limit is met and makes the process fail if not. */
export function printVerdict(claim: string, met: boolean): void {
  console.log(`  ${met ? 'met' : 'NOT MET'}: ${claim}`)
  if (!met) process.exitCode = 1
}
