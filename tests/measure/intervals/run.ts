// Recipe of intervals.json: every method under every design that applies to it, seeded trials, as many as the time of one allows
// (node tests/measure/intervals/run.mjs 1 all tests/measure/intervals/intervals.json; the first number
// multiplies the trials). A fourth argument is the first seed: another one gives other readings.

import { writeFileSync } from 'node:fs'
import type { Design } from './designs'
import { type Coverage, coverage, METHODS, type Method } from './trials'

// Limits and odds were set on other seeds of offset scans and series.
const RECIPE: Readonly<Record<Method, { readonly trials: number; readonly firstSeed: number }>> = {
  'offset scan': { trials: 700, firstSeed: 600_000 },
  'far field': { trials: 100, firstSeed: 7001 },
  'near field': { trials: 150, firstSeed: 7001 },
  loopback: { trials: 3000, firstSeed: 500_000 },
}
const [times = '1', only = '', out = '', seed] = process.argv.slice(2)
const results: Coverage[] = []
for (const method of Object.keys(METHODS) as Method[]) {
  if (only !== '' && only !== 'all' && method !== only) continue
  const designs: readonly Design[] = ['independent', ...METHODS[method].designs]
  for (const design of designs) {
    const start = performance.now()
    const found = coverage(
      method,
      design,
      Math.ceil(Number(times) * RECIPE[method].trials),
      Number(seed ?? RECIPE[method].firstSeed),
    )
    results.push(found)
    const percent = (share: number) => (100 * share).toFixed(1).padStart(5)
    const missed = found.trials - found.inside
    console.log(
      `${method.padEnd(12)} ${design.padEnd(20)} inside ${percent(found.inside / found.trials)} warned ${percent(found.warned / found.trials)} or noted ${percent(found.said / found.trials)}  of missed warned ${missed === 0 ? '  -' : percent(found.missedAndWarned / missed)}  U ${(100 * found.meanExpanded).toFixed(3)} %  ${((performance.now() - start) / found.trials).toFixed(1)} ms`,
    )
  }
}
if (out !== '') writeFileSync(out, `${JSON.stringify(results, null, 1)}\n`)
