// Range of temperature about that of assembly in which the nominal loss stays within its limit. Where the fit of a joint by fields misses
// its target, the loss is summed exactly at the temperatures looked at and at both ends found.

import type { CompiledCandidate } from '../path/compileCandidate'
import { fitsMiss, missedDb } from '../tolerance/exactCorner'

/** How far the reach is looked for, degC, and in which steps; the loss has no narrow peak between them. */
export const REACH_LOOKED_AT_C = [-65, 150] as const
const REACH_STEP_C = 10
const REACH_BISECTIONS = 20
/** Times that the ends are found anew with what exact sums add there; and how far an end then still moves, K. */
const EXACT_ROUNDS = 3
const SETTLED_K = 0.01

type Reach = readonly [fromC: number, toC: number] | null

/** Temperatures from assembly to an end. */
function stepsTo(endC: number, assemblyC: number): readonly number[] {
  const steps = Math.max(1, Math.ceil(Math.abs(endC - assemblyC) / REACH_STEP_C))
  return Array.from({ length: steps }, (_, i) => assemblyC + ((endC - assemblyC) * (i + 1)) / steps)
}

function reachOf(lossAt: (temperatureC: number) => number, assemblyC: number, limitDb: number): Reach {
  const meets = (temperature: number) => lossAt(temperature) <= limitDb
  if (!meets(assemblyC)) return null
  const side = (endC: number) => {
    let inside = assemblyC
    for (const next of stepsTo(endC, assemblyC)) {
      if (meets(next)) {
        inside = next
        continue
      }
      let outside = next
      for (let n = 0; n < REACH_BISECTIONS; n++) {
        const middle = (inside + outside) / 2
        if (meets(middle)) inside = middle
        else outside = middle
      }
      break
    }
    return inside
  }
  return [side(REACH_LOOKED_AT_C[0]), side(REACH_LOOKED_AT_C[1])]
}

/** Straight lines between known values, held beyond. */
function between(known: ReadonlyMap<number, number>): (x: number) => number {
  const points = [...known].sort(([a], [b]) => a - b)
  return (x) => {
    const above = points.findIndex(([at]) => at >= x)
    const [from, low] = points[above <= 0 ? 0 : above - 1] ?? [0, 0]
    const [to, high] = (above < 0 ? points.at(-1) : points[above]) ?? [0, 0]
    return to === from ? high : low + (high - low) * Math.min(1, (x - from) / (to - from))
  }
}

/** The temperatures about assembly at which the nominal loss meets the limit, degC; null where it never does there. */
export function temperatureReach(compiled: CompiledCandidate, assemblyC: number, limitDb: number): Reach {
  const v = Float64Array.from(compiled.nominal)
  const slot = compiled.slots.temperatureRise
  const fittedDb = (temperature: number) => {
    v[slot] = temperature - assemblyC
    return compiled.lossDb(v)
  }
  let reach = reachOf(fittedDb, assemblyC, limitDb)
  if (!fitsMiss(compiled)) return reach
  const missed = new Map<number, number>()
  let wanted = [assemblyC, ...REACH_LOOKED_AT_C.flatMap((end) => stepsTo(end, assemblyC))]
  for (let round = 0; round <= EXACT_ROUNDS && wanted.length > 0; round++) {
    const found = missedDb(
      compiled,
      wanted.map((temperature) => ({ v: compiled.nominal.with(slot, temperature - assemblyC) })),
    )
    if (found === 'pending') return reach
    for (const [i, temperature] of wanted.entries()) missed.set(temperature, found[i] ?? 0)
    const beyondDb = between(missed)
    reach = reachOf((temperature) => fittedDb(temperature) + beyondDb(temperature), assemblyC, limitDb)
    wanted = (reach ?? []).filter((end) => [...missed.keys()].every((at) => Math.abs(at - end) > SETTLED_K))
  }
  return reach
}
