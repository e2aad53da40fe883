// Recipe of intervals.json: every method under every design that applies to it, seeded trials, as many as the time of one allows
// (node tests/measure/intervals/run.mjs 1 all tests/measure/intervals/intervals.json; the first number multiplies the trials).

import { writeFileSync } from 'node:fs'
import type { Design } from './designs'
import { type Coverage, coverage, METHODS, type Method } from './trials'

const TRIALS: Readonly<Record<Method, number>> = {
  'offset scan': 300,
  'far field': 100,
  'near field': 100,
  loopback: 5000,
}
const [times = '1', only = '', out = ''] = process.argv.slice(2)
const results: Coverage[] = []
for (const method of Object.keys(METHODS) as Method[]) {
  if (only !== '' && only !== 'all' && method !== only) continue
  const designs: readonly Design[] = ['independent', ...METHODS[method].designs]
  for (const design of designs) {
    const start = performance.now()
    const found = coverage(method, design, Math.ceil(Number(times) * TRIALS[method]))
    results.push(found)
    const percent = (share: number) => (100 * share).toFixed(1).padStart(5)
    const missed = found.trials - found.inside
    console.log(
      `${method.padEnd(12)} ${design.padEnd(20)} inside ${percent(found.inside / found.trials)} warned ${percent(found.warned / found.trials)}  of missed warned ${missed === 0 ? '  -' : percent(found.missedAndWarned / missed)}  U ${(100 * found.meanExpanded).toFixed(3)} %  ${((performance.now() - start) / found.trials).toFixed(1)} ms`,
    )
  }
}
if (out !== '') writeFileSync(out, `${JSON.stringify(results, null, 1)}\n`)
