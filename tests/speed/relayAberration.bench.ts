// A relay through its real lenses, with nothing remembered: rays of both lenses, the coupled beam, and the polynomial that
// corners and yield ask: within 30 ms of processor time, as the first of its process too, which also pays for code that is not
// compiled yet (median of fresh processes, each this file with the argument `first`).

import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import '../support/fitsHere'
import { tryEvaluate } from '../../src/analysis/index'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../src/model/quantity/quantity'
import { familiesProject, relayElement } from '../analysis/support/families'
import { fixedLoopMs, printSpread, printVerdict, processorMs, spreadOf } from './timing'

const RUNS = 40
const PROCESSES = 15
const LIMIT_MS = 30

const base = familiesProject(
  relayElement({
    lens1Id: 'plano-1',
    lens2Id: 'plano-2',
    frontGap: quantityOf(810, 'um'),
    backGap: quantityOf(245, 'um'),
  }),
)

/** Other lenses every time, so that no field is known. */
function fresh(run: number) {
  const lenses = base.lenses.map((lens) =>
    lens.shape.kind === 'plano-convex'
      ? {
          ...lens,
          shape: {
            ...lens.shape,
            radius: { ...lens.shape.radius, value: lens.shape.radius.value * (1 + run / 1e4) },
          },
        }
      : lens,
  )
  return { ...base, lenses }
}

function aberration(run: number): void {
  const compiled = compileCandidate(fresh(run), 'relay')
  if (!compiled.ok) throw new Error('the relay compiles')
  const line = compiled.value.lines.find(({ kind }) => kind === 'aberration')
  if (line === undefined) throw new Error('the relay has an aberration')
  line.lossDb(compiled.value.nominal)
  // A value next to the nominal one asks for the polynomial.
  const moved = Float64Array.from(compiled.value.nominal)
  const slot = compiled.value.variables.findIndex(({ path }) => path.at(-1) === 'frontGap')
  moved[slot] = (moved[slot] ?? 0) + 1
  line.lossDb(moved)
}

if (process.argv[2] === 'first') {
  console.log(processorMs(() => aberration(1)))
} else {
  const self = fileURLToPath(import.meta.url)
  const firsts = Array.from({ length: PROCESSES }, () =>
    Number(spawnSync(process.execPath, [self, 'first'], { encoding: 'utf8' }).stdout),
  )
  const first = spreadOf(firsts)
  printSpread('first in its process', first, 'ms', 1)
  console.log(`  fixed loop ${fixedLoopMs().toFixed(0)} ms`)
  aberration(1)
  const spread = spreadOf(Array.from({ length: RUNS }, (_, run) => processorMs(() => aberration(run + 2))))
  printSpread('aberration', spread, 'ms', 1)
  const whole = spreadOf(
    Array.from({ length: RUNS }, (_, run) => processorMs(() => tryEvaluate(fresh(run + 100), 'relay'))),
  )
  printSpread('whole evaluation', whole, 'ms', 1)
  printVerdict(
    `the first relay with aberrations of a process takes under ${LIMIT_MS} ms`,
    first.median < LIMIT_MS,
  )
  printVerdict(`a further one takes under ${LIMIT_MS} ms`, spread.median < LIMIT_MS)
}
