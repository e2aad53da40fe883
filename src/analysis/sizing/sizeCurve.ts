// Loss against one dimension of a part, with every free setting following to its best; the optimum, and the band that
// stays within the limit.

import { RULES } from '../../model/quantityRules'
import { InputError } from '../../numerics/inputError'
import { minimiseBrent } from '../../numerics/minimise'
import { settleAtBest } from '../bestSettings'
import type { Values } from '../chain/readers'
import type { CompiledCandidate } from '../compileCandidate'
import type { SizedDimension } from './dimensions'

export interface SizeCurve {
  /** Values of the first of the dimension's numbers, core units; the others keep their ratio to it. */
  readonly values: Float64Array
  /** Nominal loss at each, dB; NaN never occurs: impossible sizes are left out. */
  readonly lossesDb: Float64Array
  readonly now: number
  readonly nowDb: number
  readonly best: number
  readonly bestDb: number
  /** The sizes about the best that meet the limit, or null where even the best does not. */
  readonly band: { readonly from: number; readonly to: number; readonly open: boolean } | null
}

const POINTS = 41
/** The curve runs from the size over this to the size times this. */
const SPAN = 2.5
const BISECTIONS = 16
const HOPELESS_DB = 100

type LossAt = (value: number) => number

/** The loss at a size; the settings stay where the last call left them, so that neighbours are followed. */
function lossAtSize(compiled: CompiledCandidate, dimension: SizedDimension): LossAt {
  const v: Values = Float64Array.from(compiled.nominal)
  settleAtBest(compiled, v)
  const nominal = dimension.places.map((place) => compiled.nominal[place] ?? 0)
  return (value) => {
    const factor = value / (nominal[0] ?? value)
    for (const [i, place] of dimension.places.entries()) v[place] = (nominal[i] ?? 0) * factor
    try {
      settleAtBest(compiled, v, 'nearby')
      const loss = compiled.lossDb(v)
      return Number.isFinite(loss) ? Math.min(HOPELESS_DB, loss) : HOPELESS_DB
    } catch (error) {
      if (error instanceof InputError) return HOPELESS_DB
      throw error
    }
  }
}

/** Where the loss crosses the limit between a size that meets it and one that does not. */
function edge(lossAt: LossAt, inside: number, outside: number, limitDb: number): number {
  let [near, far] = [inside, outside]
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (near + far) / 2
    if (lossAt(middle) <= limitDb) near = middle
    else far = middle
  }
  return near
}

function bandAbout(
  lossAt: LossAt,
  values: Float64Array,
  lossesDb: Float64Array,
  best: number,
  bestDb: number,
  limitDb: number,
): SizeCurve['band'] {
  if (bestDb > limitDb) return null
  const side = (direction: 1 | -1) => {
    const places = Array.from(values.keys()).filter((i) => direction * ((values[i] ?? 0) - best) > 0)
    let inside = best
    for (const i of direction === 1 ? places : places.toReversed()) {
      if ((lossesDb[i] ?? HOPELESS_DB) > limitDb) {
        return { at: edge(lossAt, inside, values[i] ?? inside, limitDb), open: false }
      }
      inside = values[i] ?? inside
    }
    return { at: inside, open: true }
  }
  const [from, to] = [side(-1), side(1)]
  return { from: from.at, to: to.at, open: from.open || to.open }
}

/** The curve of one dimension against a limit on the nominal loss, dB. */
export function sizeCurve(
  compiled: CompiledCandidate,
  dimension: SizedDimension,
  limitDb: number,
): SizeCurve {
  const lossAt = lossAtSize(compiled, dimension)
  const now = compiled.nominal[dimension.places[0] ?? -1] ?? 1
  const { minCore, maxCore } = RULES[dimension.rule]
  const [lo, hi] = [Math.max(minCore, now / SPAN), Math.min(maxCore, now * SPAN)]
  const values = Float64Array.from({ length: POINTS }, (_, i) => lo * (hi / lo) ** (i / (POINTS - 1)))
  // Outwards from the present size, so that the settings can follow.
  const lossesDb = new Float64Array(POINTS)
  const middle = values.findIndex((value) => value >= now)
  const nowDb = lossAt(now)
  for (let i = middle; i < POINTS; i++) lossesDb[i] = lossAt(values[i] ?? now)
  lossAt(now)
  for (let i = middle - 1; i >= 0; i--) lossesDb[i] = lossAt(values[i] ?? now)
  const least = lossesDb.indexOf(Math.min(...lossesDb))
  const found = minimiseBrent(
    lossAt,
    values[Math.max(0, least - 1)] ?? lo,
    values[Math.min(POINTS - 1, least + 1)] ?? hi,
    {
      tolerance: 1e-5,
    },
  )
  const leastDb = lossesDb[least] ?? HOPELESS_DB
  const [best, bestDb] = found.value < leastDb ? [found.x, found.value] : [values[least] ?? now, leastDb]
  return {
    values,
    lossesDb,
    now,
    nowDb,
    best,
    bestDb,
    band: bandAbout(lossAt, values, lossesDb, best, bestDb, limitDb),
  }
}
