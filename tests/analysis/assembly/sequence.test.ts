// Assemblies through a sequence of steps: closed forms for independent steps, and what the same design's yield run says.

import { describe, expect, test } from 'vitest'
import { compileSequence } from '../../../src/analysis/assembly/compileSequence'
import { addSequenceTallies, sequenceRange } from '../../../src/analysis/assembly/runSequence'
import { usualSequence } from '../../../src/analysis/assembly/usualSequence'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { runBlocks } from '../../../src/analysis/yield/runBlocks'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { AssemblySequence, AssemblyStep } from '../../../src/model/schema/build/assembly'
import type { GapElement, RelayElement } from '../../../src/model/schema/candidate'
import { isotropic } from '../yield/cases'
import { runAssembly, step } from './step'

const demo = demoProject()
/** One channel: rows are in rows.test.ts. */
const project = { ...demo, requirements: { ...demo.requirements, channels: 1 } }
const design = (id: string) => {
  const found = project.candidates.find((each) => each.id === id)
  if (found === undefined) throw new Error(`the demo has no ${id}`)
  return found
}

test('a step that spoils every part has no cost for each good one, nor a gain of it', () => {
  const sequence = {
    steps: [step('all', 'dispense', { spoiledPercent: 100, scrapCost: 10 })],
    costPerHour: 60,
  }
  const run = runAssembly(isotropic(10.4, 0.001, 5), 'matched', sequence, { samples: 4096, seed: 3 })
  expect([run.yield, run.costPerGood, run.minutesPerGood]).toEqual([0, null, null])
  expect(run.steps[0]?.costGain).toBeNull()
  // Half of the handling loss would leave half of the parts.
  expect(run.steps[0]?.yieldGain).toBeCloseTo(0.5, 1)
})

describe('independent steps', () => {
  // Handling alone: each step keeps 1 - p of what reaches it.
  const shares = [0.1, 0.2, 0.05]
  const sequence: AssemblySequence = {
    steps: shares.map((share, i) =>
      step(`s${i}`, 'dispense', {
        spoiledPercent: 100 * share,
        minutes: 6 * (i + 1),
        scrapCost: 10 * (i + 1),
      }),
    ),
    costPerHour: 60,
  }
  const run = runAssembly(isotropic(10.4, 0.001, 5), 'matched', sequence, { samples: 2 ** 16, seed: 3 })

  test('yield is the product of what each keeps, and each is reached by what those before it keep', () => {
    expect(run.yield).toBeCloseTo(0.9 * 0.8 * 0.95, 3)
    expect(run.steps.map(({ reached }) => reached)).toEqual([
      1,
      expect.closeTo(0.9, 4),
      expect.closeTo(0.72, 3),
    ])
    expect(run.steps[2]?.spoiled).toBeCloseTo(0.72 * 0.05, 3)
  })

  test('cost per good part is time and scrap of all assemblies started, divided by the good ones', () => {
    const good = 0.9 * 0.8 * 0.95
    // 60 an hour is 1 a minute: 6, 12 and 18 per assembly that reaches the step.
    const time = 6 + 12 * 0.9 + 18 * 0.72
    const scrap = 10 * 0.1 + 20 * 0.9 * 0.2 + 30 * 0.72 * 0.05
    expect(run.costPerGood).toBeCloseTo((time + scrap) / good, 1)
    expect(run.minutesPerGood).toBeCloseTo(time / good, 1)
  })

  test('halving what a step spoils gains what the closed form says; the step worth most is the second', () => {
    expect(run.steps[1]?.yieldGain).toBeCloseTo(0.9 * 0.1 * 0.95, 2)
    const gains = run.steps.map(({ yieldGain }) => yieldGain)
    expect(Math.max(...gains)).toBe(gains[1])
  })
})

test('normal offsets of one placement: the share within the limit is 1 - exp(-x^2 / 2 sigma^2)', () => {
  // MFD 10.4 um, sigma 1 um on both axes, 0.5 dB: 0.789137 (closed form, CHECKED by sampling in the reference of yields).
  const sets = {
    offsetX: quantityOf(0, 'um', 'estimate', { plusMinus: 2, distribution: 'normal' }),
    offsetY: quantityOf(0, 'um', 'estimate', { plusMinus: 2, distribution: 'normal' }),
  }
  const sequence: AssemblySequence = {
    steps: [step('place', 'place', { sets }), step('check', 'check', { limit: quantityOf(0.5, 'dB') })],
    costPerHour: 0,
  }
  const run = runAssembly(isotropic(10.4, 0.001, 0.5), 'matched', sequence, { samples: 2 ** 15, seed: 5 })
  expect(run.yield).toBeCloseTo(0.789137, 2)
  expect(run.steps[1]?.rejected).toBeCloseTo(1 - 0.789137, 2)
  expect(run.escaped).toBe(0)
})

test('an alignment makes up for a movement before it, and not for one after it', () => {
  const shift = { x: quantityOf(3, 'um') }
  const align = step('align', 'align', {
    sets: { offsetX: quantityOf(0, 'um'), offsetY: quantityOf(0, 'um') },
  })
  const cure = step('cure', 'cure', { moves: shift })
  const of = (steps: readonly AssemblyStep[]) =>
    runAssembly(
      isotropic(10.4, 0.001, 0.5),
      'matched',
      { steps: [...steps], costPerHour: 0 },
      { samples: 4096 },
    )
  expect(of([cure, align]).yield).toBe(1)
  expect(of([align, cure]).yield).toBe(0)
  // 4.343 (3 / 5.2)^2 = 1.4455 dB for matched modes.
  expect(of([align, cure]).p50Db).toBeCloseTo(4.342945 * (3 / 5.2) ** 2, 2)
})

test('the usual sequence of a design without handling losses yields what its yield run says', () => {
  const samples = 2 ** 13
  for (const id of ['high-na-bonded', 'ssc-chip']) {
    const usual = usualSequence(project, design(id))
    const careful = { ...usual, steps: usual.steps.map((each) => ({ ...each, spoiledPercent: 0 })) }
    const [sequence, whole] = [compileSequence(project, id, careful), assemblyOf(project, id)]
    if (!sequence.ok || !whole.ok) throw new Error('compiles')
    const ours = sequenceRange(sequence.value, 7, 0, samples)
    const theirs = runBlocks(whole.value, { samples, seed: 8, method: 'sobol' }, 0, 2)
    expect(Math.abs(ours.good - theirs.passed) / samples).toBeLessThan(0.015)
  }
})

test('an aligned joint is aligned again in its adhesive, and the component of a relay is in before the relay is aligned', () => {
  const steps = (id: string, change: (joint: GapElement | RelayElement) => void) => {
    const own = structuredClone(design(id))
    for (const each of own.chain) if (each.kind === 'gap' || each.kind === 'relay') change(each)
    return usualSequence(project, own).steps
  }
  const bonded = steps('high-na-bonded', (joint) => {
    joint.aligned = ['offsetX', 'offsetY']
  })
  expect(bonded.map(({ kind }) => kind)).toEqual(['place', 'align', 'dispense', 'align', 'cure', 'check'])
  expect(bonded[3]?.name).toMatch(/^Realign: /)
  expect(bonded[3]?.sets).toEqual(bonded[1]?.sets)
  const placed = steps('high-na-bonded', (joint) => {
    joint.aligned = []
  })
  expect(placed.map(({ kind }) => kind)).toEqual(['place', 'dispense', 'cure', 'check'])
  const relay = steps('relay', (joint) => {
    joint.aligned = ['offsetX']
  })
  const words = relay.map(({ name }) => name.split(':')[0])
  expect(words.slice(0, 3)).toEqual(['Place', 'Insert Isolator', 'Align'])
  const empty = steps('relay', (joint) => {
    if (joint.kind === 'relay') delete joint.device
  })
  expect(empty.map(({ name }) => name).join()).not.toContain('Insert')
  for (const each of [bonded, relay]) expect(new Set(each.map(({ id }) => id)).size).toBe(each.length)
})

test('the same seed gives the same numbers, in whatever blocks they are done', () => {
  const usual = usualSequence(project, design('high-na-bonded'))
  const compiled = compileSequence(project, 'high-na-bonded', usual)
  if (!compiled.ok) throw new Error('compiles')
  const whole = sequenceRange(compiled.value, 11, 0, 20_000)
  const parts = addSequenceTallies(
    sequenceRange(compiled.value, 11, 8192, 20_000),
    sequenceRange(compiled.value, 11, 0, 8192),
  )
  expect(parts).toEqual(whole)
  expect(whole.samples).toBe(20_000)
})

test('a check with an uncertain reading lets some beyond the limit escape', () => {
  const usual = usualSequence(project, design('cleaved-dry'))
  const uncertain = {
    ...usual,
    steps: usual.steps.map((each) =>
      each.kind === 'check'
        ? { ...each, limit: quantityOf(6, 'dB'), uncertainty: quantityOf(0.3, 'dB') }
        : each,
    ),
  }
  const wide = {
    ...project,
    requirements: { ...project.requirements, losses: [...project.requirements.losses] },
  }
  const [first] = wide.requirements.losses
  if (first === undefined) throw new Error('the demo states a loss')
  wide.requirements.losses = [{ ...first, limit: quantityOf(6, 'dB') }]
  const run = runAssembly(wide, 'cleaved-dry', uncertain, { samples: 2 ** 14 })
  expect(run.escaped).toBeGreaterThan(0.01)
  expect(run.yield + run.escaped).toBeLessThan(1)
})

test('rework: with independent repeats 1 - (1 - p)^(n + 1) pass, and each repeat is paid for', () => {
  // Offsets of 1 um sigma between matched modes of 10.4 um, checked at 0.2 dB.
  const align: AssemblyStep = {
    id: 'align',
    name: 'Align',
    kind: 'align',
    minutes: 3,
    scrapCost: 0,
    spoiledPercent: 0,
    sets: {
      offsetX: quantityOf(0, 'um', 'estimate', { plusMinus: 2, distribution: 'normal', coverage: 2 }),
      offsetY: quantityOf(0, 'um', 'estimate', { plusMinus: 2, distribution: 'normal', coverage: 2 }),
    },
  }
  const check = (repeats: number): AssemblyStep => ({
    id: 'check',
    name: 'Check',
    kind: 'check',
    minutes: 1,
    scrapCost: 10,
    spoiledPercent: 0,
    limit: quantityOf(0.2, 'dB'),
    ...(repeats > 0 && { rework: { fromId: 'align', repeats, cost: 5 } }),
  })
  const of = (repeats: number) =>
    runAssembly(
      isotropic(10.4, 0.001, 0.2),
      'matched',
      { steps: [align, check(repeats)], costPerHour: 60 },
      { samples: 2 ** 16, seed: 5 },
    )
  // Loss = 4.342945 (r / w)^2 with w = 5.2 um; r^2 / 2 is exponential: p = 1 - exp(-0.2 w^2 / (2 * 4.342945)).
  const p = 1 - Math.exp((-0.2 * 5.2 ** 2) / (2 * 4.342945))
  for (const repeats of [0, 1]) {
    const run = of(repeats)
    const passed = 1 - (1 - p) ** (repeats + 1)
    expect(run.yield).toBeCloseTo(passed, 2)
    const tried = passed / p // mean number of alignments of a geometric series cut off after the last repeat
    expect(run.steps[1]?.repeated).toBeCloseTo(tried - 1, 1)
    expect(run.steps[0]?.reached).toBe(1)
    // Four minutes for each try at 1 a minute, 5 for each repeat, 10 for each scrapped.
    const cost = 4 * tried + 5 * (tried - 1) + 10 * (1 - passed)
    expect(run.costPerGood).toBeCloseTo(cost / passed, 1)
  }
})
