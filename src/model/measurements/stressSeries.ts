// A stress test as series: the losses of one channel of one assembly in the order of their exposure.

import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import type { StressRows } from '../schema/measurement'
import type { ExposureUnit } from '../words/lifetime'

interface StressSeries {
  readonly assembly: string
  readonly channel: string
  /** Rising. */
  readonly exposure: Float64Array
  readonly lossDb: Float64Array
}

export interface StressTest {
  readonly unit: ExposureUnit
  readonly series: readonly StressSeries[]
  /** First exposure above 0, and the last one. */
  readonly firstStep: number
  readonly last: number
}

const known = new WeakMap<StressRows, StressTest>()

/** The series of a test. InputError for an exposure below 0, and where nothing was measured after the start. */
export function stressTest(rows: StressRows): StressTest {
  const before = known.get(rows)
  if (before !== undefined) return before
  const exposure = unpackNumbers(rows.exposure)
  const lossDb = unpackNumbers(rows.lossDb)
  const wordsOf = (role: string) => {
    const label = rows.labels.find((each) => each.role === role)
    const indices = label === undefined ? null : unpackNumbers(label.values)
    return (row: number) => label?.names[indices?.[row] ?? -1] ?? ''
  }
  const [assemblyOf, channelOf] = [wordsOf('assembly'), wordsOf('channel')]
  const rowsOf = new Map<string, number[]>()
  let [firstStep, last] = [Number.POSITIVE_INFINITY, 0]
  for (const [row, after] of exposure.entries()) {
    if (!(after >= 0)) throw new InputError('exposure', after, 'at least 0')
    if (after > 0) firstStep = Math.min(firstStep, after)
    last = Math.max(last, after)
    const key = JSON.stringify([assemblyOf(row), channelOf(row)])
    const own = rowsOf.get(key)
    if (own === undefined) rowsOf.set(key, [row])
    else own.push(row)
  }
  if (last === 0)
    throw new InputError(
      'the stress test',
      'limited to exposure 0',
      'one with losses before and after stress',
    )
  const series = [...rowsOf.values()].map((own): StressSeries => {
    const sorted = own.toSorted((a, b) => (exposure[a] ?? 0) - (exposure[b] ?? 0))
    return {
      assembly: assemblyOf(own[0] ?? 0),
      channel: channelOf(own[0] ?? 0),
      exposure: Float64Array.from(sorted, (row) => exposure[row] ?? 0),
      lossDb: Float64Array.from(sorted, (row) => lossDb[row] ?? 0),
    }
  })
  const test = { unit: rows.exposureUnit, series, firstStep, last }
  known.set(rows, test)
  return test
}
