// Loss against one dimension of a part, with every free setting following to its best; the optimum, and the band that
// stays within the limit.

import { RULES } from '../../model/quantity/quantityRules'
import { InputError } from '../../numerics/inputError'
import { minimiseBrent } from '../../numerics/minimise'
import { finish, type Steps, within } from '../../numerics/steps'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/valueReaders'
import { settleAtBest } from '../tolerance/bestSettings'
import type { SizedDimension } from './dimensions'

export interface SizeCurve {
  /** Values of the first of the dimension's numbers, core units; the others keep their ratio to it. */
  readonly values: Float64Array
  /** Nominal loss at each, dB; NaN never occurs: impossible sizes are omitted. */
  readonly lossesDb: Float64Array
  readonly now: number
  readonly nowDb: number
  readonly best: number
  readonly bestDb: number
  /** What the dimension reads as at each size, at the present and at the best one; null where it reads as itself. */
  readonly readings: {
    readonly values: Float64Array
    readonly now: number
    readonly best: number
    readonly band: readonly [from: number, to: number] | null
  } | null
  /** The sizes about the best that meet the limit, or null where even the best does not. */
  readonly band: { readonly from: number; readonly to: number; readonly open: boolean } | null
}

const POINTS = 41
/** The curve runs from the size over this to the size times this. */
const SPAN = 2.5
const BISECTIONS = 16
const HOPELESS_DB = 100
/** Smaller gains are rounding. */
const WORTH_DB = 1e-7

/** Values with the dimension at a size and the settings settled for it. */
interface Settled {
  readonly v: Values
  readonly lossDb: number
}

/** Settles at a size, starting from the settings of a neighbour, so that one dip is followed and not left. */
type Follow = (value: number, from: Settled) => Settled

function settledAt(compiled: CompiledCandidate, v: Values, within: 'everywhere' | 'nearby'): Settled {
  try {
    settleAtBest(compiled, v, within)
    const loss = compiled.lossDb(v)
    return { v, lossDb: Number.isFinite(loss) ? Math.min(HOPELESS_DB, loss) : HOPELESS_DB }
  } catch (error) {
    if (error instanceof InputError) return { v, lossDb: HOPELESS_DB }
    throw error
  }
}

function follower(compiled: CompiledCandidate, dimension: SizedDimension): Follow {
  const nominal = dimension.slots.map((slot) => compiled.nominal[slot] ?? 0)
  return (value, from) => {
    const v = Float64Array.from(from.v)
    const factor = value / (nominal[0] ?? value)
    for (const [i, slot] of dimension.slots.entries()) v[slot] = (nominal[i] ?? 0) * factor
    return settledAt(compiled, v, 'nearby')
  }
}

/** Where the loss crosses the limit between a size that meets it and one that does not. */
function* edgeSteps(
  follow: Follow,
  inside: number,
  from: Settled,
  outside: number,
  limitDb: number,
): Steps<BandEnd> {
  let [near, far, at] = [inside, outside, from]
  for (let i = 0; i < BISECTIONS; i++) {
    yield i / BISECTIONS
    const middle = (near + far) / 2
    const there = follow(middle, at)
    if (there.lossDb <= limitDb) {
      near = middle
      at = there
    } else {
      far = middle
    }
  }
  return { value: near, settled: at, open: false }
}

interface Best {
  readonly value: number
  readonly settled: Settled
}

interface BandEnd extends Best {
  /** Beyond it the limit is met too, as far as the curve goes. */
  readonly open: boolean
}

function* bandSteps(
  follow: Follow,
  values: Float64Array,
  curve: readonly Settled[],
  best: Best,
  limitDb: number,
): Steps<readonly [BandEnd, BandEnd] | null> {
  if (best.settled.lossDb > limitDb) return null
  function* side(direction: 1 | -1): Steps<BandEnd> {
    const indices = Array.from(values.keys()).filter((i) => direction * ((values[i] ?? 0) - best.value) > 0)
    let inside = { ...best, open: true }
    for (const i of direction === 1 ? indices : indices.toReversed()) {
      const [value, settled] = [values[i] ?? inside.value, curve[i]]
      if (settled === undefined) break
      if (settled.lossDb > limitDb)
        return yield* edgeSteps(follow, inside.value, inside.settled, value, limitDb)
      inside = { value, settled, open: true }
    }
    return inside
  }
  return [yield* within(0, 0.5, side(-1)), yield* within(0.5, 1, side(1))]
}

/** The size of lowest loss between two sizes of the curve. */
function bestBetween(follow: Follow, lo: number, hi: number, start: Best): Best {
  let best = start
  minimiseBrent(
    (value) => {
      const settled = follow(value, start.settled)
      if (settled.lossDb < best.settled.lossDb - WORTH_DB) best = { value, settled }
      return settled.lossDb
    },
    lo,
    hi,
    { tolerance: 1e-5 },
  )
  return best
}

function rangeOf(dimension: SizedDimension, now: number): readonly [number, number] {
  const { minCore, maxCore } = RULES[dimension.rule]
  return [Math.max(minCore, now / SPAN), Math.min(maxCore, dimension.mostCore ?? maxCore, now * SPAN)]
}

interface Sweep {
  readonly follow: Follow
  readonly now: number
  readonly here: Settled
  readonly values: Float64Array
  readonly curve: readonly Settled[]
}

/** Losses over the range, followed outwards from the present size. */
function* sweepSteps(compiled: CompiledCandidate, dimension: SizedDimension): Steps<Sweep> {
  const follow = follower(compiled, dimension)
  const now = compiled.nominal[dimension.slots[0] ?? -1] ?? 1
  const [lo, hi] = rangeOf(dimension, now)
  const values = Float64Array.from({ length: POINTS }, (_, i) => lo * (hi / lo) ** (i / (POINTS - 1)))
  const here = settledAt(compiled, Float64Array.from(compiled.nominal), 'everywhere')
  const curve = Array.from<Settled>({ length: POINTS }).fill(here)
  const middle = values.findIndex((value) => value >= now)
  for (let [i, from] = [middle, here]; i < POINTS; i++) {
    yield (i - middle) / POINTS
    from = follow(values[i] ?? now, from)
    curve[i] = from
  }
  for (let [i, from] = [middle - 1, here]; i >= 0; i--) {
    yield (POINTS - 1 - i) / POINTS
    from = follow(values[i] ?? now, from)
    curve[i] = from
  }
  return { follow, now, here, values, curve }
}

/** The curve of one dimension against a limit on the nominal loss, dB. */
export function* sizeCurveSteps(
  compiled: CompiledCandidate,
  dimension: SizedDimension,
  limitDb: number,
): Steps<SizeCurve> {
  const { follow, now, here, values, curve } = yield* within(0, 0.5, sweepSteps(compiled, dimension))
  const lossesDb = Float64Array.from(curve, ({ lossDb }) => lossDb)
  const least = lossesDb.indexOf(Math.min(...lossesDb))
  // A size that does not matter stays as it is.
  const start: Best =
    here.lossDb - (lossesDb[least] ?? 0) < WORTH_DB
      ? { value: now, settled: here }
      : { value: values[least] ?? now, settled: curve[least] ?? here }
  const below = values.findLast((value) => value < start.value) ?? start.value
  const above = values.find((value) => value > start.value) ?? start.value
  const best = bestBetween(follow, below, above, start)
  const ends = yield* within(0.6, 1, bandSteps(follow, values, curve, best, limitDb))
  const { reading } = dimension
  return {
    values,
    lossesDb,
    now,
    nowDb: here.lossDb,
    best: best.value,
    bestDb: best.settled.lossDb,
    readings:
      reading === undefined
        ? null
        : {
            values: Float64Array.from(curve, ({ v }) => reading(v)),
            now: reading(here.v),
            best: reading(best.settled.v),
            band: ends === null ? null : [reading(ends[0].settled.v), reading(ends[1].settled.v)],
          },
    band:
      ends === null ? null : { from: ends[0].value, to: ends[1].value, open: ends[0].open || ends[1].open },
  }
}

/** The same at once. */
export const sizeCurve = (...how: Parameters<typeof sizeCurveSteps>): SizeCurve =>
  finish(sizeCurveSteps(...how))
