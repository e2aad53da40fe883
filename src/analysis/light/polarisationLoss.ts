// Loss of a chain for light along each axis of the chip.

import type { CompiledCandidate } from '../path/compileCandidate'
import type { PolarisationLoss } from '../results/lightResults'

/** Values of the polarisation's slot in the vector. */
const POLARISATION = { budget: 0, te: 1, tm: 2 } as const

/** Losses of TE and TM at the values of a vector, whose polarisation is put back afterwards. */
export function polarisationLoss(compiled: CompiledCandidate, v: Float64Array): PolarisationLoss {
  const slot = compiled.slots.polarisation
  const before = v[slot] ?? POLARISATION.budget
  v[slot] = POLARISATION.te
  const teDb = compiled.lossDb(v)
  v[slot] = POLARISATION.tm
  const tmDb = compiled.lossDb(v)
  v[slot] = before
  return { teDb, tmDb, dependentLossDb: Math.abs(tmDb - teDb) }
}
