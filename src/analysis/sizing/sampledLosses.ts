// Losses of simulated assemblies, the same ones for every width that is tried.

import { mix32 } from '../../numerics/random/randomWords'
import { unitPoints } from '../../numerics/random/unitPoints'
import type { Steps } from '../../numerics/steps'
import { cappedLossDb } from '../results/lossAtShare'
import { drawsOf } from '../tolerance/draws'
import { orDark, type SizedCandidate } from './wholeRow'

/** Assemblies that a percentile is read from. A full run is more precise. */
export const SIZING_SAMPLES = 4096
const SEED = 0x51f15eed
/** Samples between two pauses. */
const PAUSE_AFTER = 32

export const ALL_SAMPLES: readonly number[] = Array.from({ length: SIZING_SAMPLES }, (_, n) => n)

/** Losses of the samples of these numbers, dB, each at its worst temperature: at most the ceiling, as for no light. */
export function* sampledSteps(
  sized: SizedCandidate,
  everyChannel: boolean,
  numbers: readonly number[] = ALL_SAMPLES,
): Steps<Float64Array> {
  const { variables, nominal, channels, ownPlaces } = sized
  const at = (variable: (typeof variables)[number]) => variables.indexOf(variable)
  const common = drawsOf(variables, (variable) => !(everyChannel && ownPlaces.has(at(variable))))
  const own = drawsOf(variables, (variable) => everyChannel && ownPlaces.has(at(variable)))
  const count = everyChannel ? channels : 1
  const dimensions = common.places.length + count * own.places.length
  const points = unitPoints('sobol', Math.max(1, dimensions), mix32(SEED))
  const point = new Float64Array(points.dimensions)
  const v = Float64Array.from(nominal)
  const losses = sized.sampled()
  const worstDb = orDark(() => losses.worstDb(v))
  const channelDb = (channel: number) => orDark(() => losses.channelDb(v, channel))()
  const sampleDb = (n: number): number => {
    points.point(n, point)
    common.apply(point, v)
    if (!everyChannel) return cappedLossDb(worstDb())
    let worst = Number.NEGATIVE_INFINITY
    for (let channel = 0; channel < channels; channel++) {
      const from = common.places.length + channel * own.places.length
      own.apply(point.subarray(from, from + own.places.length), v)
      worst = Math.max(worst, cappedLossDb(channelDb(channel)))
    }
    return worst
  }
  const found = new Float64Array(numbers.length)
  for (const [i, n] of numbers.entries()) {
    if (i % PAUSE_AFTER === PAUSE_AFTER - 1) yield i / numbers.length
    found[i] = sampleDb(n)
  }
  return found
}
