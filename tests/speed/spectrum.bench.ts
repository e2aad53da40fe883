// A spectrum of 201 points over a chain of five joints, coated and with round trips in every gap: within 30 ms.

import '../support/fitsHere'
import { spectrum } from '../../src/analysis/light/spectrum'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import { fiveJointProject } from '../analysis/support/fiveJoints'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const RUNS = 60
const LIMIT_MS = 30
const POINTS = 201
const BAND_UM = [1.6, 1.68] as const

const project = fiveJointProject()
const compiled = compileCandidate(project, 'five-joints')
console.log(`  ${compiled.ok ? compiled.value.joins.length : 0} joints, ${POINTS} points`)

function once(): void {
  const result = spectrum(project, 'five-joints', BAND_UM, POINTS)
  if (!result.ok) throw new Error(result.issues.map((issue) => issue.message).join(' '))
}

console.log(`  cold: ${timeMs(once).toFixed(0)} ms`)
const spread = spreadOf(Array.from({ length: RUNS }, () => timeMs(once)))
printSpread('spectrum', spread, 'ms', 1)
printVerdict(`a spectrum of ${POINTS} points takes under ${LIMIT_MS} ms`, spread.median < LIMIT_MS)
