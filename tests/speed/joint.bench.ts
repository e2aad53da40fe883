// jointEfficiency, record and check included, against the same closed form in C without either (jointLimit.c,
// gcc -O3 -march=native -ffast-math): the same pseudo-random inputs, run by run in turn, so that a slow moment of the
// machine hits both. With it the unchecked function of the hot loops.

import { execFileSync, spawnSync } from 'node:child_process'
import path from 'node:path'
import { jointEfficiency, jointEfficiencyAt } from '../../src/optics/joint/joint'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const CALLS = 4_000_000
const WARM_UP_RUNS = 4
const RUNS = 25
const LEAST_RATIO = 0.8

/** The pseudo-random numbers of jointLimit.c, from -0.5 to 0.5, and the generator's next state. */
const next = (state: number) => (Math.imul(state, 1664525) + 1013904223) >>> 0
const numberOf = (state: number) => (state >>> 8) / 16777216 - 0.5

/** The numbers that stay; they begin as fractions, as in a project, where no field holds whole numbers only. */
function newJoint() {
  const joint = {
    wavelengthUm: 1.55,
    index: 1.45,
    emitterMfdXUm: 10.4,
    emitterMfdYUm: 10.2,
    receiverMfdXUm: 3.2,
    receiverMfdYUm: 2.8,
    offsetXUm: 0.5,
    offsetYUm: 0.5,
    gapUm: 5.5,
    tiltXRad: 0.01,
    tiltYRad: 0.01,
    rollRad: 0.02,
    waistXUm: 0.5,
    waistYUm: 0.5,
  }
  joint.index = 1
  joint.waistXUm = 0
  joint.waistYUm = 0
  return joint
}

/** Writes the inputs of one call of jointLimit.c into the record. */
function setJoint(joint: ReturnType<typeof newJoint>, u: number): void {
  joint.receiverMfdXUm = 3.2 + u * 0.1
  joint.offsetXUm = u
  joint.offsetYUm = -u * 0.5
  joint.gapUm = 5 + u
  joint.tiltXRad = 0.01 * u
  joint.tiltYRad = -0.01 * u
  joint.rollRad = 0.02 * u
}

const RECORDS = Array.from({ length: 500 }, newJoint)

function sumOfRecords(): number {
  let sum = 0
  for (const joint of RECORDS) sum += jointEfficiency(joint)
  return sum
}

/** The calls of jointLimit.c with records at hand: writing them is not timed. */
function timeChecked(): { sum: number; ms: number } {
  let sum = 0
  let ms = 0
  let state = 1
  for (let done = 0; done < CALLS; done += RECORDS.length) {
    for (const joint of RECORDS) {
      state = next(state)
      setJoint(joint, numberOf(state))
    }
    ms += timeMs(() => {
      sum += sumOfRecords()
    })
  }
  return { sum, ms }
}

/** The same with one record, written anew before each call. */
function sumOfRewritten(): number {
  const joint = newJoint()
  let sum = 0
  let state = 1
  for (let i = 0; i < CALLS; i++) {
    state = next(state)
    setJoint(joint, numberOf(state))
    sum += jointEfficiency(joint)
  }
  return sum
}

/** The same through the unchecked function of the hot loops. */
function sumOfUnchecked(): number {
  let sum = 0
  let state = 1
  for (let i = 0; i < CALLS; i++) {
    // Written out: calls here would take their share of what the engine may inline.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    const u = (state >>> 8) / 16777216 - 0.5
    sum += jointEfficiencyAt(
      1.55,
      1,
      10.4,
      10.2,
      3.2 + u * 0.1,
      2.8,
      u,
      -u * 0.5,
      5 + u,
      0.01 * u,
      -0.01 * u,
      0.02 * u,
      0,
      0,
    )
  }
  return sum
}

function compileReference(): string | null {
  const source = path.resolve('tests/speed/jointLimit.c')
  const binary = path.join(import.meta.dirname, 'jointLimit')
  const gcc = spawnSync('gcc', ['-O3', '-march=native', '-ffast-math', source, '-o', binary, '-lm'])
  return gcc.status === 0 ? binary : null
}

/** Mcalls/s and the sum that the C program reports. */
function runReference(binary: string): { speed: number; sum: number } {
  const output = execFileSync(binary, { encoding: 'utf8' })
  const match = /([\d.]+) Mcalls\/s \(sum ([\d.]+)\)/.exec(output)
  if (match === null) throw new Error(`cannot read "${output}"`)
  return { speed: Number(match[1]), sum: Number(match[2]) }
}

const sums = { checked: 0, rewritten: 0, unchecked: 0, reference: 0 }
const speedOf = (ms: number) => CALLS / 1000 / ms
const runUnchecked = () => speedOf(timeMs(() => (sums.unchecked = sumOfUnchecked())))
const runRewritten = () => speedOf(timeMs(() => (sums.rewritten = sumOfRewritten())))
const runChecked = () => {
  const { sum, ms } = timeChecked()
  sums.checked = sum
  return speedOf(ms)
}

const binary = compileReference()
function round() {
  const reference = binary === null ? { speed: Number.NaN, sum: Number.NaN } : runReference(binary)
  sums.reference = reference.sum
  return {
    checked: runChecked(),
    reference: reference.speed,
    rewritten: runRewritten(),
    unchecked: runUnchecked(),
  }
}
for (let i = 0; i < WARM_UP_RUNS; i++) round()
const rounds = Array.from({ length: RUNS }, round)
const spreadOfAll = (value: (of: ReturnType<typeof round>) => number) => spreadOf(rounds.map(value))
const printSpeed = (label: string, value: (of: ReturnType<typeof round>) => number) =>
  printSpread(label, spreadOfAll(value), 'Mcalls/s', 2)

printSpeed('jointEfficiency', (of) => of.checked)
printSpeed('jointEfficiency, writing the record included', (of) => of.rewritten)
printSpeed('jointEfficiencyAt', (of) => of.unchecked)
const ours = [sums.checked, sums.rewritten, sums.unchecked]
const difference = Math.max(...ours) - Math.min(...ours)
printVerdict(`the sums of the efficiencies, ${sums.checked.toFixed(6)}, agree to 1e-6`, difference < 1e-6)
if (binary === null) console.log('  no gcc here: no reference to compare with')
else {
  const ratio = spreadOfAll((of) => of.checked / of.reference)
  const rewrittenRatio = spreadOfAll((of) => of.rewritten / of.reference)
  const uncheckedRatio = spreadOfAll((of) => of.unchecked / of.reference)
  printSpeed('the same in C', (of) => of.reference)
  printSpread('jointEfficiencyAt to C', uncheckedRatio, '', 2)
  printSpread('jointEfficiency, writing included, to C', rewrittenRatio, '', 2)
  printSpread('jointEfficiency to C', ratio, '', 2)
  printVerdict(`jointEfficiency at least ${LEAST_RATIO} of the speed in C`, ratio.median >= LEAST_RATIO)
  printVerdict('the sum agrees with that in C to 1e-6', Math.abs(sums.checked - sums.reference) < 1e-6)
}
