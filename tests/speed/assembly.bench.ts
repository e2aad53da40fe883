// A million assemblies of one channel through five steps on one worker: the demo's bonded stub, placed, aligned, dispensed, cured,
// checked. Asked for: two seconds of processor time, with its mount too, where every finished assembly is looked at three times.

import '../support/fitsHere'
import { compileSequence } from '../../src/analysis/assembly/compileSequence'
import { sequenceRange } from '../../src/analysis/assembly/runSequence'
import { usualSequence } from '../../src/analysis/assembly/usualSequence'
import { demoProject } from '../../src/model/index'
import { printSpread, printVerdict, spreadOf } from './timing'

const SAMPLES = 1_000_000
const RUNS = 3
const MOST_SECONDS = 2
const DESIGN = 'high-na-bonded'

const demo = demoProject()
const oneChannel = { ...demo, requirements: { ...demo.requirements, channels: 1 } }
const unmounted = {
  ...oneChannel,
  candidates: oneChannel.candidates.map((each) => ({ ...each, mount: undefined })),
}
for (const [project, what] of [
  [unmounted, 'without a mount'],
  [oneChannel, 'with its mount, at three temperatures'],
] as const) {
  const design = project.candidates.find(({ id }) => id === DESIGN)
  if (design === undefined) throw new Error(`the demo has no ${DESIGN}`)
  const sequence = usualSequence(project, design)
  const compiled = compileSequence(project, DESIGN, sequence)
  if (!compiled.ok) throw new Error('the demo cannot be computed')
  let good = 0
  const run = (samples: number) => {
    good += sequenceRange(compiled.value, 16537, 0, samples).good
  }
  console.log(`  ${what}: ${sequence.steps.length} steps, ${compiled.value.dimensions} coordinates`)
  printVerdict('five steps at least', sequence.steps.length >= 5)
  run(200_000)
  const cpuSeconds = () => {
    const from = process.cpuUsage().user
    run(SAMPLES)
    return (process.cpuUsage().user - from) / 1e6
  }
  const seconds = spreadOf(Array.from({ length: RUNS }, cpuSeconds))
  printSpread(`a million assemblies ${what}`, seconds, 's of processor time')
  printVerdict(`within ${MOST_SECONDS} s (${good} good)`, seconds.median <= MOST_SECONDS)
}
