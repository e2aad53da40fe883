// Loss of a chain for light along each axis of the chip.

import type { CompiledCandidate } from '../path/compileCandidate'
import type { PolarisationLoss } from '../results/lightResults'

/** Values of the polarisation's place in the vector. */
const POLARISATION = { budget: 0, te: 1, tm: 2 } as const

/** Losses of TE and TM at the values of a vector, whose polarisation is put back afterwards. */
export function polarisationLoss(compiled: CompiledCandidate, v: Float64Array): PolarisationLoss {
  const place = compiled.places.polarisation
  const before = v[place] ?? POLARISATION.budget
  v[place] = POLARISATION.te
  const teDb = compiled.lossDb(v)
  v[place] = POLARISATION.tm
  const tmDb = compiled.lossDb(v)
  v[place] = before
  return { teDb, tmDb, dependentLossDb: Math.abs(tmDb - teDb) }
}
