// A scan that is cut off at its top: the detector was at its limit. A smooth peak that is rounded to few digits is flat
// as well, but falls off gently: one length of the flat part from its middle it has fallen by a few roundings only, where
// a cut one falls steeply.

const SHORTEST_RUN = 4
/** Fall relative to the flat part, as a share of the whole range, from which it is treated as cut. */
const STEEP = 0.02
/**
 * The same in steps of the numbers' rounding: a parabola that stays within one step over five points has fallen by at
 * most (5/2)^2 = 6.25 steps where it is looked at, and over more points by less.
 */
const STEEP_STEPS = 7

/** Below this share of the greatest value a step is not rounding but the last digits of the numbers. */
const LEAST_STEP = 1e-9

/** The greatest step that all values are whole multiples of, by Euclid's algorithm; next to nothing where there is none. */
function roundingStep(values: ArrayLike<number>, greatest: number): number {
  const least = LEAST_STEP * greatest
  let step = 0
  for (let i = 0; i < values.length; i++) {
    let b = Math.abs(values[i] ?? 0)
    while (b > least) {
      if (step === 0) [step, b] = [b, 0]
      else {
        const rest = step % b
        ;[step, b] = [b, b - rest < least ? 0 : rest]
      }
    }
  }
  return step
}

/** Points in a row at the highest value of a cut scan; 0 for one that is not cut. */
export function saturatedLength(power: ArrayLike<number>): number {
  let highest = -Infinity
  let lowest = Infinity
  for (let i = 0; i < power.length; i++) {
    const value = power[i] ?? highest
    highest = Math.max(highest, value)
    lowest = Math.min(lowest, value)
  }
  let run = 0
  let longest = 0
  let end = 0
  for (let i = 0; i < power.length; i++) {
    run = power[i] === highest ? run + 1 : 0
    if (run > longest) [longest, end] = [run, i]
  }
  if (longest < SHORTEST_RUN) return 0
  const beyond = Math.ceil(longest / 2)
  const before = power[Math.max(0, end - longest + 1 - beyond)] ?? highest
  const after = power[Math.min(power.length - 1, end + beyond)] ?? highest
  const step = roundingStep(power, Math.max(highest, -lowest))
  const steep = Math.max(STEEP * (highest - lowest), STEEP_STEPS * step)
  return Math.min(before, after) < highest - steep ? longest : 0
}
