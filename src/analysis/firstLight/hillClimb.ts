// The climb from first light to the optimum, simulated: x and y in turn, a step to the better side, half the step if
// neither side is better, with the noise of the detector on every reading.

import { normalQuantile } from '../../numerics/normal'
import { unitPoints } from '../../numerics/random/unitPoints'
import { quantile } from '../../numerics/statistics'

export interface HillClimb {
  readonly meanReadings: number
  readonly p95Readings: number
  /** Share of the climbs that end within 0.1 dB of the optimum. */
  readonly arrived: number
}

interface ClimbInput {
  /** Loss above the optimum at the edge of the capture range, dB. */
  readonly reserveDb: number
  readonly seed: number
  /** Loss above the optimum at a place in units of the capture range; a Gaussian overlap's by default. */
  readonly lossAt?: AreaLoss
}

/** Loss above the optimum, dB, at x and y in units of the capture range. */
export type AreaLoss = (x: number, y: number) => number

const CLIMBS = 400
const MOST_READINGS = 400
/** Steps as shares of the capture range: the first, and where the climb ends. */
const STEP = { first: 0.25, last: 0.01 } as const
/** Noise of a reading relative to the floor, which is three times the noise of the dark level, and relative to the signal. */
const NOISE = { ofFloor: 1 / 3, ofSignal: 0.01 } as const
const ARRIVED_DB = 0.1

/** Climbs from random places within the capture ellipse. The same seed gives the same result. */
export function hillClimb({
  reserveDb,
  seed,
  lossAt = (x, y) => reserveDb * (x * x + y * y),
}: ClimbInput): HillClimb {
  const points = unitPoints('random', 2 + MOST_READINGS + 8, seed)
  const point = new Float64Array(points.dimensions)
  const readings = new Float64Array(CLIMBS)
  const floor = 10 ** (-reserveDb / 10)
  let arrived = 0
  for (let n = 0; n < CLIMBS; n++) {
    points.point(n, point)
    const [radius, angle] = [Math.sqrt(point[0] ?? 0), 2 * Math.PI * (point[1] ?? 0)]
    const position = [radius * Math.cos(angle), radius * Math.sin(angle)]
    let count = 0
    const lossHere = () => lossAt(position[0] ?? 0, position[1] ?? 0)
    const read = () => {
      const power = 10 ** (-lossHere() / 10)
      const noise = normalQuantile(point[2 + count++] ?? 0.5)
      return power + noise * Math.hypot(NOISE.ofFloor * floor, NOISE.ofSignal * power)
    }
    let here = read()
    for (let step: number = STEP.first; step >= STEP.last && count < MOST_READINGS; ) {
      let moved = false
      for (const axis of [0, 1]) {
        for (const side of [1, -1]) {
          position[axis] = (position[axis] ?? 0) + side * step
          const there = read()
          if (there > here) {
            here = there
            moved = true
            break
          }
          position[axis] = (position[axis] ?? 0) - side * step
        }
      }
      if (!moved) step /= 2
    }
    readings[n] = count
    if (lossHere() <= ARRIVED_DB) arrived++
  }
  return {
    meanReadings: readings.reduce((sum, each) => sum + each, 0) / CLIMBS,
    p95Readings: quantile(readings, 0.95),
    arrived: arrived / CLIMBS,
  }
}
