// Range of temperature about that of assembly in which the nominal loss stays within its limit.

import type { CompiledCandidate } from '../path/compileCandidate'

/** How far the reach is looked for, degC, and in which steps; the loss has no narrow peak between them. */
export const REACH_LOOKED_AT_C = [-65, 150] as const
const REACH_STEP_C = 10
const REACH_BISECTIONS = 20

/** The temperatures about assembly at which the nominal loss meets the limit, degC; null where it never does there. */
export function temperatureReach(
  compiled: CompiledCandidate,
  assemblyC: number,
  limitDb: number,
): readonly [fromC: number, toC: number] | null {
  const v = Float64Array.from(compiled.nominal)
  const meets = (temperature: number) => {
    v[compiled.places.temperatureRise] = temperature - assemblyC
    return compiled.lossDb(v) <= limitDb
  }
  if (!meets(assemblyC)) return null
  const side = (endC: number) => {
    const steps = Math.max(1, Math.ceil(Math.abs(endC - assemblyC) / REACH_STEP_C))
    let inside = assemblyC
    for (let i = 1; i <= steps; i++) {
      const next = assemblyC + ((endC - assemblyC) * i) / steps
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
