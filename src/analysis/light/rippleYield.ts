// The effect of the ripple on the yield, from a run of single passes only.
// Gap tolerances of a period or more leave the phase to chance: every phase is then equally likely, and the ripple adds
// -10 log10 of the round-trip factor at a random phase. Ripples of several gaps are taken together at their largest.

import type { Ripple } from '../results/lightResults'
import type { YieldResult } from '../yield/yieldResult'

const PHASES = 64

/** Loss beyond a single pass at a phase; a cosine between maximum and minimum, which small ripples are. */
function rippleAt({ crestGainDb, troughLossDb }: Ripple, phaseRad: number): number {
  const middle = (troughLossDb - crestGainDb) / 2
  const half = (troughLossDb + crestGainDb) / 2
  return middle - half * Math.cos(phaseRad)
}

/** Share of the run's assemblies that lose at most `limitDb`, linear within a class. */
function shareWithin({ histogram, samples }: YieldResult, limitDb: number): number {
  const { fromDb, stepDb, counts } = histogram
  let passed = 0
  for (let i = 0; i < counts.length; i++) {
    const lower = fromDb + i * stepDb
    passed += (counts[i] as number) * Math.min(1, Math.max(0, (limitDb - lower) / stepDb))
  }
  return passed / samples
}

/** Share of assemblies that pass with the ripple at a random phase, 0..1. */
export function rippleYield(run: YieldResult, ripples: readonly Ripple[]): number {
  const [largest] = [...ripples].sort((a, b) => b.peakToPeakDb - a.peakToPeakDb)
  if (largest === undefined) return run.yield
  // The classes are coarse: the ripple is applied as a change of what they say, not of the exact count.
  let sum = 0
  for (let i = 0; i < PHASES; i++) {
    sum += shareWithin(run, run.limitDb - rippleAt(largest, (2 * Math.PI * (i + 0.5)) / PHASES))
  }
  const change = sum / PHASES - shareWithin(run, run.limitDb)
  return Math.min(1, Math.max(0, run.yield + change))
}
