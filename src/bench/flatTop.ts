// A scan that is cut off at its top: the detector was at its limit. A smooth peak that is rounded to few digits is flat
// as well, but goes on gently: one length of the flat part from its middle it has fallen by a few roundings only, where
// a cut one falls steeply.

const SHORTEST_RUN = 4
/** Fall beside the flat part, as a share of the whole range, from which it counts as cut. */
const STEEP = 0.02
/**
 * The same in steps of the numbers' rounding: a parabola that stays within one step over five points has fallen by at
 * most (5/2)^2 = 6.25 steps where it is looked at, and over more points by less.
 */
const STEEP_STEPS = 7

/** Points in a row at the highest value of a cut scan; 0 for one that is not cut. */
export function flatTopLength(power: ArrayLike<number>): number {
  let highest = -Infinity
  let lowest = Infinity
  let step = Infinity
  for (let i = 0; i < power.length; i++) {
    const value = power[i] ?? highest
    highest = Math.max(highest, value)
    lowest = Math.min(lowest, value)
    const change = Math.abs(value - (power[i - 1] ?? value))
    if (change > 0) step = Math.min(step, change)
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
  const steep = Math.max(STEEP * (highest - lowest), STEEP_STEPS * step)
  return Math.min(before, after) < highest - steep ? longest : 0
}
