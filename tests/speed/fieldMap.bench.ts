// The map over all offsets of two fields, 512 by 512, against the same with scipy.fft (fieldMapLimit.py): three
// transforms, a product and a square; and one joint of two exact modes with its grid doubled.

import { spawnSync } from 'node:child_process'
import { fftPlan, forward2, inverse2 } from '../../src/numerics/fft/fft2'
import { fieldEfficiency } from '../../src/optics/field/fieldJoint'
import { ALIGNED_POSE } from '../../src/optics/field/fieldPose'
import { offsetMap } from '../../src/optics/field/offsetMap'
import type { SampledField } from '../../src/optics/field/sampledField'
import { stepIndexProfile } from '../../src/optics/field/stepIndexProfile'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const SIDE = 256
const WARM_UP_RUNS = 15
const RUNS = 21
const ROUNDS = 7
const GREATEST_RATIO = 1.5

function someField(seed: number): SampledField {
  let state = seed
  const draw = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2147483648 - 1
  }
  const samples = () => Float64Array.from({ length: SIDE * SIDE }, draw)
  const position = { nx: SIDE, ny: SIDE, dxUm: 0.1, dyUm: 0.1, x0Um: 0, y0Um: 0 }
  return { ...position, re: samples(), im: samples(), wavelengthUm: 1.55, index: 1 }
}

/** Median milliseconds of scipy for the map and for one transform; null where there is no scipy. */
function scipyMs(): { readonly map: number; readonly transform: number } | null {
  const run = spawnSync('python3', ['tests/speed/fieldMapLimit.py'], { encoding: 'utf8' })
  const match = /map ([\d.]+) ms, transform ([\d.]+) ms/.exec(run.stdout ?? '')
  return match === null ? null : { map: Number(match[1]), transform: Number(match[2]) }
}

const [emitter, receiver] = [someField(1), someField(2)]
let kept = 0
const mapMs = () => timeMs(() => (kept += offsetMap(emitter, receiver).efficiency[0] ?? 0))
for (let i = 0; i < WARM_UP_RUNS; i++) mapMs()
const roundMs = () => spreadOf(Array.from({ length: RUNS }, mapMs))
printSpread('offset map, 512 x 512', roundMs(), 'ms', 2)

const plan = fftPlan(512, 512)
const [re, im] = [new Float64Array(512 * 512).fill(1), new Float64Array(512 * 512)]
const transformMs = () =>
  timeMs(() => {
    forward2(plan, re, im)
    inverse2(plan, re, im)
  }) / 2
for (let i = 0; i < 5; i++) transformMs()
printSpread('one transform, 512 x 512', spreadOf(Array.from({ length: RUNS }, transformMs)), 'ms', 2)

// In turn, so that a slow moment of the machine hits both.
const rounds = Array.from({ length: ROUNDS }, () => ({ ours: roundMs().median, scipy: scipyMs() }))
const ratios = rounds.flatMap(({ ours, scipy }) => (scipy === null ? [] : [ours / scipy.map]))
if (ratios.length === 0) console.log('  no python3 with scipy here: no reference to compare with')
else {
  const { scipy } = rounds[0] ?? {}
  console.log(`  scipy.fft: map ${scipy?.map.toFixed(2)} ms, one transform ${scipy?.transform.toFixed(2)} ms`)
  const ratio = spreadOf(ratios)
  printSpread('map over that of scipy.fft', ratio, '', 2)
  printVerdict(`the map takes at most ${GREATEST_RATIO} of scipy's time`, ratio.median <= GREATEST_RATIO)
}
printVerdict('the maps are numbers', Number.isFinite(kept))

const pair = {
  emitter: stepIndexProfile({ coreRadiusUm: 4.1, na: 0.12, wavelengthUm: 1.55 }),
  receiver: stepIndexProfile({ coreRadiusUm: 2.2, na: 0.2, wavelengthUm: 1.55 }),
  wavelengthUm: 1.55,
  index: 1,
  propagation: 'exact' as const,
}
const jointMs = () => timeMs(() => fieldEfficiency(pair, { ...ALIGNED_POSE, offsetXUm: 1, gapUm: 5 }))
for (let i = 0; i < 3; i++) jointMs()
printSpread('joint of two exact modes, good to 1e-5', spreadOf(Array.from({ length: 9 }, jointMs)), 'ms', 1)
