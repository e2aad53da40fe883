// Losses of simulated assemblies, the same ones for every width that is tried. Where the fit of a joint by fields misses its target, the
// assemblies that decide the percentile are summed directly.

import { mix32 } from '../../numerics/random/randomWords'
import { unitPoints } from '../../numerics/random/unitPoints'
import type { Steps } from '../../numerics/steps'
import type { ChainContext } from '../path/vector/elementModels'
import { cappedLossDb } from '../results/lossAtShare'
import { drawsOf } from '../tolerance/draws'
import { fitsMiss } from '../tolerance/exactCorner'
import { decideDirectly } from './decideDirectly'
import { orDark, type SizedCandidate } from './wholeRow'

/** Assemblies that a percentile is read from. A full run is more precise. */
export const SIZING_SAMPLES = 4096
const SEED = 0x51f15eed
/** Samples between two pauses. */
const PAUSE_AFTER = 32

export const ALL_SAMPLES: readonly number[] = Array.from({ length: SIZING_SAMPLES }, (_, n) => n)

/** Number of the samples that lose more than the one from which a percentile is read. */
export const samplesAbove = (share: number): number =>
  SIZING_SAMPLES - Math.max(1, Math.ceil(share * SIZING_SAMPLES))

interface SampledLosses {
  /** Of each sample, dB, at its worst temperature: at most the ceiling, as for no light. */
  readonly lossesDb: Float64Array
  /** Samples of which the fields were summed directly; 0 where every fit meets its target. */
  readonly summed: number
}

/**
 * Losses of the samples of these numbers. `above`: how many of them lose more than those from which a percentile is read, which is where
 * the losses must be right.
 */
export function* sampledSteps(
  sized: SizedCandidate,
  everyChannel: boolean,
  above: readonly number[],
  numbers: readonly number[] = ALL_SAMPLES,
): Steps<SampledLosses> {
  const fitted = sampleReader(sized, everyChannel, 'beyond')
  const lossesDb = new Float64Array(numbers.length)
  const isExact = !fitsMiss(sized)
  const share = isExact ? 1 : FITTED_SHARE
  for (const [i, n] of numbers.entries()) {
    if (i % PAUSE_AFTER === PAUSE_AFTER - 1) yield (share * i) / numbers.length
    lossesDb[i] = fitted(n)
  }
  if (isExact) return { lossesDb, summed: 0 }
  const direct = sampleReader(sized, everyChannel, 'direct')
  const steps = decideDirectly(lossesDb, (i) => direct(numbers[i] as number), above)
  for (;;) {
    const step = steps.next()
    if (step.done) return { lossesDb, summed: step.value }
    yield share + (1 - share) * step.value
  }
}

/** Share of the work that the fit takes. */
const FITTED_SHARE = 0.1

/** Loss of the sample of a number. */
function sampleReader(
  sized: SizedCandidate,
  everyChannel: boolean,
  sums: ChainContext['sums'],
): (n: number) => number {
  const { variables, nominal, channels, ownSlots } = sized
  const at = (variable: (typeof variables)[number]) => variables.indexOf(variable)
  const common = drawsOf(variables, (variable) => !(everyChannel && ownSlots.has(at(variable))))
  const own = drawsOf(variables, (variable) => everyChannel && ownSlots.has(at(variable)))
  const count = everyChannel ? channels : 1
  const dimensions = common.slots.length + count * own.slots.length
  const points = unitPoints('sobol', Math.max(1, dimensions), mix32(SEED))
  const point = new Float64Array(points.dimensions)
  const v = Float64Array.from(nominal)
  const losses = sized.sampled(sums)
  const worstDb = orDark(() => losses.worstDb(v))
  const channelDb = (channel: number) => orDark(() => losses.channelDb(v, channel))()
  return (n) => {
    points.point(n, point)
    common.apply(point, v)
    if (!everyChannel) return cappedLossDb(worstDb())
    let worst = Number.NEGATIVE_INFINITY
    for (let channel = 0; channel < channels; channel++) {
      const from = common.slots.length + channel * own.slots.length
      own.apply(point.subarray(from, from + own.slots.length), v)
      worst = Math.max(worst, cappedLossDb(channelDb(channel)))
    }
    return worst
  }
}
