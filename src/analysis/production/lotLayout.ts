// Which loss of a lot belongs to which assembly and channel, lots simulated in that layout, and what is compared of a lot.

import { normalQuantile } from '../../numerics/normal'
import { unitPoints } from '../../numerics/random/unitPoints'
import { quantile } from '../../numerics/statistics'
import type { LotSimulator } from './lotSimulator'

export interface LotLayout {
  /** Assembly and channel of each loss, counted from 0. */
  readonly assemblyOf: ArrayLike<number>
  readonly channelOf: ArrayLike<number>
  readonly assemblies: number
  readonly channels: number
  /** Standard uncertainty of one measured loss, dB. */
  readonly standardDb: number
}

/** Simulates lot number `lot`: the same layout, with the scatter of the measurement, dB. */
export function lotDraw(simulator: LotSimulator, layout: LotLayout, seed: number) {
  const { assemblyOf, channelOf, assemblies, standardDb } = layout
  const count = assemblyOf.length
  const rows = Array.from({ length: assemblies }, () => new Float64Array(simulator.channels))
  const noise = unitPoints('random', count, seed)
  const point = new Float64Array(count)
  return (lot: number, factors: Float64Array): Float64Array => {
    rows.forEach((row, i) => {
      simulator.simulate(lot * assemblies + i, factors, row)
    })
    noise.point(lot, point)
    return Float64Array.from(point, (u, i) => {
      const loss = rows[assemblyOf[i] as number]?.[(channelOf[i] as number) % simulator.channels] ?? 0
      return loss + (standardDb > 0 ? standardDb * normalQuantile(u) : 0)
    })
  }
}

/** Differences below this are rounding, dB. */
const LEAST_DB = 1e-3
const log = (db: number) => Math.log(Math.max(LEAST_DB, db))

/**
 * What of a lot is compared: mean, logarithms of the spreads between and within assemblies and of both halves of the
 * distribution, and by how much outer channels lose more than inner ones.
 */
export function lotFeatures(lossDb: ArrayLike<number>, layout: LotLayout): Float64Array {
  const { assemblyOf, channelOf, assemblies, channels } = layout
  const count = lossDb.length
  const sums = new Float64Array(assemblies)
  const sizes = new Float64Array(assemblies)
  let mean = 0
  for (let i = 0; i < count; i++) {
    const at = assemblyOf[i] as number
    sums[at] = (sums[at] as number) + (lossDb[i] as number)
    sizes[at] = (sizes[at] as number) + 1
    mean += (lossDb[i] as number) / count
  }
  const means = sums.map((sum, i) => sum / Math.max(1, sizes[i] as number))
  const between = means.reduce((sum, each) => sum + (each - mean) ** 2, 0) / Math.max(1, assemblies - 1)
  let within = 0
  for (let i = 0; i < count; i++)
    within += ((lossDb[i] as number) - (means[assemblyOf[i] as number] ?? 0)) ** 2
  const [low, middle, high] = [0.05, 0.5, 0.95].map((share) => quantile(lossDb, share))
  const features = [
    mean,
    log(Math.sqrt(between)),
    log((high ?? 0) - (middle ?? 0)),
    log((middle ?? 0) - (low ?? 0)),
  ]
  if (count > assemblies) features.push(log(Math.sqrt(within / (count - assemblies))))
  if (channels > 2) features.push(outerSlope(lossDb, channelOf, channels, mean))
  return Float64Array.from(features)
}

/** Loss of the outermost channel less that of the middle one, dB, by a parabola over the row. */
function outerSlope(
  lossDb: ArrayLike<number>,
  channelOf: ArrayLike<number>,
  channels: number,
  mean: number,
): number {
  const weights = Float64Array.from(channelOf, (channel) => ((2 * channel) / (channels - 1) - 1) ** 2)
  const centre = weights.reduce((sum, each) => sum + each, 0) / weights.length
  let [cross, square] = [0, 0]
  weights.forEach((weight, i) => {
    cross += (weight - centre) * ((lossDb[i] as number) - mean)
    square += (weight - centre) ** 2
  })
  return square > 0 ? cross / square : 0
}
