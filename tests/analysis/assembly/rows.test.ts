// A row of channels through its steps: every channel must pass. Against closed forms and a Monte Carlo of its own, of matched round
// modes, whose loss is 4.342945 (r / w)^2.

import { expect, test } from 'vitest'
import { compileSequence } from '../../../src/analysis/assembly/compileSequence'
import { sequenceRange } from '../../../src/analysis/assembly/runSequence'
import { usualSequence } from '../../../src/analysis/assembly/usualSequence'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { AssemblySequence, AssemblyStep } from '../../../src/model/schema/build/assembly'
import type { FibreArray } from '../../../src/model/schema/fibreArray'
import type { Project } from '../../../src/model/schema/project'
import type { ALIGN_SIGNALS } from '../../../src/model/words/assembly'
import { normalProbability } from '../../../src/numerics/normal'
import { isotropic } from '../yield/cases'
import { runAssembly, step } from './step'

const [MFD_UM, PITCH_UM] = [10.4, 127]
const DB = 10 / Math.LN10 / (MFD_UM / 2) ** 2

const um = (value: number) => quantityOf(value, 'um')
const normal = (value: number, unit: 'um' | 'deg', plusMinus: number) =>
  quantityOf(value, unit, 'estimate', { plusMinus, distribution: 'normal', coverage: 2 })

function row(channels: number, limitDb: number, array: Partial<FibreArray>): Project {
  const project = isotropic(MFD_UM, 0.001, limitDb)
  const plain: FibreArray = { pitch: um(PITCH_UM), coreX: um(0), coreY: um(0), bow: um(0), aim: 'sum of all' }
  return {
    ...project,
    requirements: { ...project.requirements, channels, pitch: um(PITCH_UM) },
    candidates: project.candidates.map((each) => ({ ...each, array: { ...plain, ...array } })),
  }
}
const sequence = (...steps: AssemblyStep[]): AssemblySequence => ({ steps, costPerHour: 0 })

test('roll residual and pitch error act over the length of the row: the outer channels decide', () => {
  const limitDb = 0.5
  const placing = step('place', 'place', {
    sets: { offsetX: um(0), offsetY: um(0), roll: normal(0, 'deg', 0.1) },
  })
  const check = step('check', 'check', { limit: quantityOf(limitDb, 'dB') })
  const run = runAssembly(
    row(12, limitDb, { pitch: um(PITCH_UM + 0.2) }),
    'matched',
    sequence(placing, check),
    {
      samples: 8192,
    },
  )
  // x = 5.5 * 0.2 um for the pitch, y = 5.5 * 127.2 um * roll: within the limit up to |roll| = r, of sigma 0.05 degrees.
  const aside = 5.5 * 0.2
  const most = Math.sqrt(limitDb / DB - aside ** 2) / (5.5 * (PITCH_UM + 0.2))
  const sigma = (0.05 * Math.PI) / 180
  expect(run.channels).toBe(12)
  expect(run.yield).toBeCloseTo(2 * normalProbability(most / sigma) - 1, 2)
  expect(run.steps[1]?.rejected).toBeCloseTo(2 - 2 * normalProbability(most / sigma), 2)
})

/** Normal numbers of its own: a multiplicative generator (S. K. Park, K. W. Miller, Commun. ACM 31 (1988) 1192) and Box-Muller. */
function ownNormals(seed: number): () => number {
  let state = seed
  const uniform = () => {
    state = (state * 16_807) % 2_147_483_647
    return state / 2_147_483_647
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

test('a row aligned on its outer channels passes as often as one simulated here, with its residual and cure shift', () => {
  const [channels, limitDb, sigma, residual, shift, samples] = [4, 0.4, 0.5, 0.2, 0.3, 4096]
  const project = row(channels, limitDb, {
    coreX: normal(0, 'um', 2 * sigma),
    coreY: normal(0, 'um', 2 * sigma),
  })
  const align = step('align', 'align', {
    signal: 'power at both outer channels',
    sets: { offsetX: normal(0, 'um', 2 * residual), offsetY: normal(0, 'um', 2 * residual) },
  })
  const cure = step('cure', 'cure', { moves: { y: um(shift) }, spoiledPercent: 10 })
  const check = step('check', 'check', { limit: quantityOf(limitDb, 'dB') })
  const passes = (signal: (typeof ALIGN_SIGNALS)[number]) => {
    const compiled = compileSequence(project, 'matched', sequence({ ...align, signal }, cure, check))
    if (!compiled.ok) throw new Error('compiles')
    return sequenceRange(compiled.value, 9, 0, samples)
  }
  const outer = passes('power at both outer channels')
  const draw = ownNormals(12_345)
  const rows = 40_000
  let passed = 0
  for (let n = 0; n < rows; n++) {
    const cores = Array.from({ length: channels }, () => ({ x: sigma * draw(), y: sigma * draw() }))
    const [first, last] = [cores[0]!, cores[channels - 1]!]
    // The power of two equal modes is greatest half way between them.
    const x = residual * draw() - (first.x + last.x) / 2
    const y = residual * draw() - (first.y + last.y) / 2 + shift
    if (cores.every((core) => DB * ((core.x + x) ** 2 + (core.y + y) ** 2) <= limitDb)) passed++
  }
  expect(Math.abs(outer.good / samples - (0.9 * passed) / rows)).toBeLessThan(0.01)
  expect((outer.spoiled[1] ?? 0) / samples).toBeCloseTo(0.1, 3)
  // On all channels the inner ones weigh in too, and fewer are left beyond the limit.
  expect(passes('transmitted power').good / samples).toBeGreaterThan(outer.good / samples + 0.01)
})

test('the usual alignment of several channels is on both outer ones, of one on its power', () => {
  const project = demoProject()
  const design = project.candidates.find(({ id }) => id === 'high-na-bonded')
  if (design === undefined) throw new Error('the demo has a bonded stub')
  const signalFor = (channels: number) =>
    usualSequence({ ...project, requirements: { ...project.requirements, channels } }, design).steps.find(
      ({ kind }) => kind === 'align',
    )?.signal
  expect(signalFor(12)).toBe('power at both outer channels')
  expect(signalFor(1)).toBe('transmitted power')
})
