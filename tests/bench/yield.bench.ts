// The yield of a whole chain on one worker: a fibre known by its core, a gap of six degrees of freedom, a facet, with a
// tolerance on twelve of their numbers. Asked for: a million samples within a second, and memory that does not grow.

import { assemblyOf } from '../../src/analysis/yield/assembly'
import { blocksOf, runBlocks } from '../../src/analysis/yield/runBlocks'
import { demoProject } from '../../src/model/index'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const SAMPLES = 1_000_000
const RUNS = 7
const MOST_SECONDS = 1
const MOST_MEGABYTES = 200

const result = assemblyOf(demoProject(), 'cleaved-dry')
if (!result.ok) throw new Error('the demo cannot be computed')
const assembly = result.value
console.log(`  ${assembly.draws.places.length} toleranced quantities`)
printVerdict('the chain has twelve variables', assembly.draws.places.length >= 12)

let passed = 0
const run = (method: 'sobol' | 'random', samples = SAMPLES) => {
  const options = { samples, seed: 16537, method }
  passed += runBlocks(assembly, options, 0, blocksOf(samples)).passed
}
run('sobol', 200_000)
for (const method of ['sobol', 'random'] as const) {
  const seconds = spreadOf(Array.from({ length: RUNS }, () => timeMs(() => run(method)) / 1000))
  printSpread(`a million samples, ${method}`, seconds, 's')
  if (method === 'sobol') printVerdict(`within ${MOST_SECONDS} s`, seconds.median <= MOST_SECONDS)
}

run('sobol', 10_000_000)
const megabytes = process.memoryUsage().rss / 1e6
console.log(`  after ten million samples: ${megabytes.toFixed(0)} MB held by the process, ${passed} passed`)
printVerdict(`ten million samples within ${MOST_MEGABYTES} MB`, megabytes <= MOST_MEGABYTES)
