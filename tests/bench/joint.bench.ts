// jointEfficiencyAt against the same closed form in C (jointLimit.c, gcc -O3 -march=native -ffast-math): the same
// pseudo-random inputs, run by run in turn, so that a slow moment of the machine hits both.

import { execFileSync, spawnSync } from 'node:child_process'
import path from 'node:path'
import { jointEfficiency, jointEfficiencyAt } from '../../src/optics/joint'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const CALLS = 4_000_000
const WARM_UP_RUNS = 4
const RUNS = 15
const LEAST_RATIO = 0.8

const RECORD = {
  wavelengthUm: 1.55,
  index: 1.01,
  emitterMfdXUm: 10.4,
  emitterMfdYUm: 10.2,
  receiverMfdXUm: 3.2,
  receiverMfdYUm: 2.8,
  offsetXUm: 0.1,
  offsetYUm: -0.05,
  gapUm: 5.1,
  tiltXRad: 0.001,
  tiltYRad: -0.001,
  rollRad: 0.002,
  waistXUm: 0.5,
  waistYUm: 0.5,
}
const RECORDS = Array.from({ length: 256 }, (_, i) => ({ ...RECORD, offsetXUm: i / 300 }))

/** The loop of jointLimit.c, its linear congruential generator included. */
function sumOfEfficiencies(): number {
  let sum = 0
  let state = 1
  for (let i = 0; i < CALLS; i++) {
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

/** The checked door, for the price of the checks: joints as records, 256 of them in turn. */
function sumOfCheckedEfficiencies(): number {
  let sum = 0
  for (let i = 0; i < CALLS; i++) sum += jointEfficiency(RECORDS[i % RECORDS.length] ?? RECORD)
  return sum
}

function compileReference(): string | null {
  const source = path.resolve('tests/bench/jointLimit.c')
  const binary = path.resolve('node_modules/.cache/bench/jointLimit')
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

let sum = 0
const runOurs = () => CALLS / 1000 / timeMs(() => (sum = sumOfEfficiencies()))
for (let i = 0; i < WARM_UP_RUNS; i++) runOurs()

const binary = compileReference()
if (binary === null) {
  console.log('  no gcc here: no reference to compare with')
  printSpread('jointEfficiencyAt', spreadOf(Array.from({ length: RUNS }, runOurs)), 'Mcalls/s', 2)
} else {
  const pairs = Array.from({ length: RUNS }, () => ({ reference: runReference(binary), ours: runOurs() }))
  const ratio = spreadOf(pairs.map((pair) => pair.ours / pair.reference.speed))
  printSpread('jointEfficiencyAt', spreadOf(pairs.map((pair) => pair.ours)), 'Mcalls/s', 2)
  printSpread('the same in C', spreadOf(pairs.map((pair) => pair.reference.speed)), 'Mcalls/s', 2)
  printSpread('ratio', ratio, '', 2)
  printVerdict(`at least ${LEAST_RATIO} of the speed in C`, ratio.median >= LEAST_RATIO)
  const difference = Math.abs(sum - (pairs[0]?.reference.sum ?? 0))
  printVerdict('both sums agree to the six decimals printed', difference < 1e-6)
}

let checkedSum = 0
const runChecked = () => CALLS / 1000 / timeMs(() => (checkedSum += sumOfCheckedEfficiencies()))
runChecked()
printSpread('jointEfficiency, checked record', spreadOf(Array.from({ length: 5 }, runChecked)), 'Mcalls/s', 2)
printVerdict('the checked sums are numbers', Number.isFinite(checkedSum))
