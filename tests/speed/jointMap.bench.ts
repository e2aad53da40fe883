// A 121 x 121 map of a joint: it must fit easily into one frame of 16 ms.

import { type AxisSamples, fillJointMap } from '../../src/optics/joint/jointMap'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const SIDE = 121
const RUNS = 200
const LIMIT_MS = 16

const JOINT = {
  wavelengthUm: 1.6537,
  index: 1,
  emitterMfdXUm: 10.9,
  emitterMfdYUm: 10.9,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 2.8,
  offsetXUm: 0.2,
  offsetYUm: 0.1,
  gapUm: 8,
  tiltXRad: 0.01,
  tiltYRad: 0,
  rollRad: 0.02,
  waistXUm: 0,
  waistYUm: 0,
}
const AXES: readonly AxisSamples[] = [
  { axis: 'offsetXUm', from: -3, to: 3, count: SIDE },
  { axis: 'offsetYUm', from: -3, to: 3, count: SIDE },
  { axis: 'gapUm', from: 0, to: 40, count: SIDE },
  { axis: 'tiltXRad', from: -0.1, to: 0.1, count: SIDE },
  { axis: 'tiltYRad', from: -0.1, to: 0.1, count: SIDE },
  { axis: 'rollRad', from: -1.5, to: 1.5, count: SIDE },
]

const out = new Float64Array(SIDE * SIDE)
const pairs = AXES.flatMap((x, i) => AXES.slice(i + 1).map((y) => [x, y] as const))
const fill = (run: number) => {
  const [x, y] = pairs[run % pairs.length] as (typeof pairs)[number]
  return timeMs(() => fillJointMap(JOINT, x, y, out))
}

const first = fill(0)
const spread = spreadOf(Array.from({ length: RUNS }, (_, run) => fill(run)))
console.log(`  first map, cold: ${first.toFixed(2)} ms`)
printSpread(`${SIDE} x ${SIDE} map`, spread, 'ms', 2)
printVerdict(`a map takes under ${LIMIT_MS} ms`, spread.median < LIMIT_MS)
