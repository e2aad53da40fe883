// A lot of assemblies in numbers: mean and percentiles, the sources of its spread, its assemblies in their order, its channels.

import { InputError } from '../../numerics/inputError'
import { mean, quantile, standardDeviation } from '../../numerics/statistics'
import { type ControlChart, controlChart } from './controlChart'
import { groupedMeanHalfWidth } from './groupedMean'
import { type LotTrend, lotTrend } from './lotTrend'
import { type VarianceComponents, varianceComponents } from './varianceComponents'

interface LotWords {
  readonly names: readonly string[]
  /** Place in the names, one for each loss. */
  readonly indices: Float64Array
}

interface LotInput {
  readonly lossDb: Float64Array
  readonly returnLossDb: Float64Array | null
  readonly day: Float64Array | null
  readonly assembly: LotWords | null
  readonly channel: LotWords | null
  readonly batch: LotWords | null
  readonly station: LotWords | null
  /** Standard uncertainty of one loss, dB. */
  readonly standardDb: number
}

interface LotAssembly {
  readonly name: string
  readonly meanDb: number
  readonly worstDb: number
  readonly losses: number
  /** Day since 1970-01-01, and index among the batches; null where the file has none. */
  readonly day: number | null
  readonly batch: number | null
}

export interface LotSummary {
  readonly lossDb: Float64Array
  /** Assembly of each loss, by its index in `assemblies`, and channel by its index in `channels`. */
  readonly assemblyOf: Float64Array
  readonly channelOf: Float64Array
  readonly standardDb: number
  readonly meanDb: number
  /** Half width of the 95 % interval of the mean, from batches where there are several, else from assemblies; null for one of them. */
  readonly meanPlusMinusDb: number | null
  readonly meanFrom: 'batches' | 'assemblies'
  readonly spreadDb: number
  readonly p50Db: number
  readonly p95Db: number
  readonly worstDb: number
  /** Lowest return loss, dB; null where none was measured. */
  readonly lowestReturnLossDb: number | null
  readonly variances: VarianceComponents
  /** By date where there is one, else in the order of the file. */
  readonly assemblies: readonly LotAssembly[]
  readonly byDate: boolean
  readonly channels: readonly {
    readonly name: string
    readonly meanDb: number
    readonly losses: number
  }[]
  /** Of the assemblies' means; null for fewer than four assemblies. */
  readonly chart: ControlChart | null
  readonly trend: LotTrend | null
}

/** InputError for fewer than two losses. */
export function lotSummary(input: LotInput): LotSummary {
  const { lossDb, returnLossDb, day, batch, station, standardDb } = input
  const count = lossDb.length
  if (count < 2) throw new InputError('number of losses in the lot', count, '2 or more')
  const each = { names: ['all'], indices: new Float64Array(count) }
  const assembly = input.assembly ?? {
    names: Array.from(lossDb, (_, i) => `${i + 1}`),
    indices: Float64Array.from(lossDb, (_, i) => i),
  }
  const channel = input.channel ?? each
  const factors = [
    ...(batch === null ? [] : [{ name: 'batch', levels: batch.indices }]),
    ...(station === null ? [] : [{ name: 'station', levels: station.indices }]),
    { name: 'assembly', levels: assembly.indices },
    ...(input.channel === null ? [] : [{ name: 'channel', levels: channel.indices }]),
  ]
  const variances = varianceComponents(lossDb, factors)
  const rowsOf = rowsByName(assembly)
  const unsorted = assembly.names.flatMap((name, i): readonly (LotAssembly & { readonly at: number })[] => {
    const own = rowsOf[i] ?? []
    const first = own[0]
    if (first === undefined) return []
    const losses = own.map((row) => lossDb[row] ?? 0)
    return [
      {
        at: i,
        name,
        meanDb: mean(losses),
        worstDb: Math.max(...losses),
        losses: losses.length,
        day: day?.[first] ?? null,
        batch: batch?.indices[first] ?? null,
      },
    ]
  })
  const sorted = day === null ? unsorted : [...unsorted].sort((a, b) => (a.day ?? 0) - (b.day ?? 0))
  const newIndex = new Map(sorted.map(({ at }, i) => [at, i]))
  const assemblies = sorted.map(({ at: _, ...rest }) => rest)
  const assemblyMeans = assemblies.map(({ meanDb }) => meanDb)
  const batches =
    batch === null
      ? []
      : rowsByName(batch)
          .filter((rows) => rows.length > 0)
          .map((rows) => ({
            readings: [...new Set(rows.map((row) => newIndex.get(assembly.indices[row] ?? 0) ?? 0))].map(
              (index) => assemblyMeans[index] ?? 0,
            ),
            share: rows.length / count,
          }))
  // Also where the estimate of their component is 0: with few batches that comes by chance.
  const fromBatches = batches.length > 1
  const groups = fromBatches
    ? batches
    : rowsOf
        .filter((rows) => rows.length > 0)
        .map((rows) => ({
          readings: rows.map((row) => lossDb[row] ?? 0),
          share: rows.length / count,
        }))
  return {
    lossDb,
    assemblyOf: assembly.indices.map((index) => newIndex.get(index) ?? 0),
    channelOf: channel.indices,
    standardDb,
    meanDb: mean(lossDb),
    meanPlusMinusDb: groupedMeanHalfWidth(groups),
    meanFrom: fromBatches ? 'batches' : 'assemblies',
    spreadDb: standardDeviation(lossDb),
    p50Db: quantile(lossDb, 0.5),
    p95Db: quantile(lossDb, 0.95),
    worstDb: lossDb.reduce((worst, loss) => Math.max(worst, loss), Number.NEGATIVE_INFINITY),
    lowestReturnLossDb:
      returnLossDb === null
        ? null
        : returnLossDb.reduce((least, each) => Math.min(least, each), Number.POSITIVE_INFINITY),
    variances,
    assemblies,
    byDate: day !== null,
    channels: rowsByName(channel).map((rows, i) => ({
      name: channel.names[i] ?? '',
      meanDb: rows.length === 0 ? 0 : mean(rows.map((row) => lossDb[row] ?? 0)),
      losses: rows.length,
    })),
    chart: assemblies.length < 4 ? null : controlChart(assemblyMeans),
    trend:
      assemblies.length < 4
        ? null
        : lotTrend(assemblyMeans, batch === null ? null : assemblies.map((each) => each.batch ?? 0)),
  }
}

function rowsByName({ names, indices: of }: LotWords): readonly (readonly number[])[] {
  const rows: number[][] = names.map(() => [])
  of.forEach((index, row) => {
    rows[index]?.push(row)
  })
  return rows
}
