// The inverse job: how wide each tolerance may be for a loss limit, alone and shared out together.
//   alone    the largest half width at which the worse end still meets the limit, everything else at its nominal value
//   shared   every tolerance gets a share of the decibels that are left, by its weight, and the half width that costs it;
//            all of them are then scaled together until the basis meets the limit: corners work together

import type { Path } from '../../model/issue'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import type { Spread } from '../../model/quantity/spread'
import { InputError } from '../../numerics/inputError'
import { brentRoot } from '../../numerics/roots'
import { criterionDb, criterionFollower, isSampled, type SizingBasis } from './criteria'
import { oneStep, sizedPlaces, widestHalf } from './sizedPlaces'
import type { SizedCandidate } from './wholeRow'

interface Allowance {
  readonly place: number
  readonly path: Path
  readonly label: string
  readonly rule: RuleName
  /**
   * Half widths in the core's unit, `now` 0 where none is stated. `alone` is null where no width within reason costs so
   * much, `shared` also where the quantity is left out of the sharing.
   */
  readonly now: number
  readonly alone: number | null
  readonly shared: number | null
}

interface Allowances {
  readonly nominalDb: number
  readonly limitDb: number
  /** What the basis says with the tolerances as they are, and shared out. */
  readonly nowDb: number
  readonly sharedDb: number
  readonly rows: readonly Allowance[]
  /** False where the nominal loss and the tolerances that are not shared out leave nothing to share. */
  readonly possible: boolean
}

const FIRST_STEP = 1e-3
const GROWTH = 1.6
const REACH = 200
const BISECTIONS = 18
/** A percentile costs many evaluations, and its samples resolve no more than a few per cent of a width. */
const SAMPLED_BISECTIONS = 9
const WIDEST_FACTOR = 3

/** Loss at the worse end of a half width of one quantity; beyond what the model covers it is hopeless. */
function worseEnd(compiled: SizedCandidate, draft: Float64Array, place: number, half: number): number {
  const nominal = compiled.nominal[place] ?? 0
  const { minCore, maxCore } = RULES[compiled.variables[place]?.rule ?? 'offset']
  let worst = 0
  for (const side of [-1, 1]) {
    draft[place] = Math.min(maxCore, Math.max(minCore, nominal + side * half))
    worst = Math.max(worst, lossOf(compiled, draft))
  }
  draft[place] = nominal
  return worst
}

function lossOf(compiled: SizedCandidate, draft: Float64Array): number {
  try {
    const loss = compiled.lossDb(draft)
    return Number.isFinite(loss) ? loss : Number.MAX_VALUE
  } catch (error) {
    if (error instanceof InputError) return Number.MAX_VALUE
    throw error
  }
}

/** The half width at which the worse end reaches a loss, or null within 200 times the present one. */
function halfWidthFor(compiled: SizedCandidate, place: number, lossDb: number): number | null {
  const draft = Float64Array.from(compiled.nominal)
  const over = (half: number) => worseEnd(compiled, draft, place, half) - lossDb
  const now = compiled.variables[place]?.spread.halfWidth || oneStep(compiled, place)
  if (over(0) >= 0) return 0
  let inner = 0
  for (let outer = now * FIRST_STEP; outer <= now * REACH; outer *= GROWTH) {
    if (over(outer) >= 0) {
      const root = brentRoot(over, inner, outer, { tolerance: 1e-6 })
      return root.end === 'converged' ? root.x : null
    }
    inner = outer
  }
  return null
}

/** A tolerance that is not stated yet counts as uniform, as one that is entered does. */
function withHalf(spread: Spread, halfWidth: number): Spread {
  const distribution = halfWidth > 0 && spread.distribution === 'fixed' ? 'uniform' : spread.distribution
  return { ...spread, halfWidth, distribution }
}

/** The candidate with other half widths, everything else the same. */
function withHalfWidths(
  compiled: SizedCandidate,
  half: (place: number, now: number) => number,
): SizedCandidate {
  return {
    ...compiled,
    variables: compiled.variables.map((variable, at) => ({
      ...variable,
      spread: withHalf(variable.spread, half(at, variable.spread.halfWidth)),
    })),
  }
}

/** Decibels that the shared tolerances may add: the limit less what the others add already. */
function roomDb(
  compiled: SizedCandidate,
  places: readonly number[],
  basis: SizingBasis,
  nominalDb: number,
  limitDb: number,
): number {
  const others = withHalfWidths(compiled, (at, now) => (places.includes(at) ? 0 : now))
  const used = criterionDb(others, basis, nominalDb) - nominalDb
  const all = limitDb - nominalDb
  if (all <= used) return 0
  return basis.criterion === 'worst case' ? all - used : Math.sqrt(all * all - used * used)
}

/**
 * The half width of every tolerance that costs its share. One that never costs so much keeps its width, and what it
 * leaves goes to the others.
 */
function sharesOf(
  compiled: SizedCandidate,
  places: readonly number[],
  basis: SizingBasis,
  nominalDb: number,
  limitDb: number,
  weightAt: (place: number) => number,
): { readonly shared: ReadonlyMap<number, number>; readonly room: number } {
  const room = roomDb(compiled, places, basis, nominalDb, limitDb)
  if (room === 0) return { shared: new Map(), room }
  const weights = places.map(weightAt)
  const whole =
    basis.criterion === 'worst case'
      ? weights.reduce((sum, weight) => sum + weight, 0)
      : Math.sqrt(weights.reduce((sum, weight) => sum + weight * weight, 0))
  const shared = new Map<number, number>()
  for (const [i, at] of places.entries()) {
    const half = halfWidthFor(compiled, at, nominalDb + (room * (weights[i] ?? 1)) / whole)
    if (half !== null && half <= widestHalf(compiled, at)) shared.set(at, half)
  }
  if (shared.size === places.length) return { shared, room }
  return sharesOf(compiled, [...shared.keys()], basis, nominalDb, limitDb, weightAt)
}

/**
 * Scales shared half widths together until the basis meets the limit. Sums of single losses can only ask for narrower ones;
 * a percentile may allow wider ones too.
 */
function scaledToLimit(
  compiled: SizedCandidate,
  shared: ReadonlyMap<number, number>,
  basis: SizingBasis,
  nominalDb: number,
  limitDb: number,
): { readonly half: (place: number) => number | null; readonly totalDb: number } {
  const half = (factor: number) => (place: number) => {
    const own = shared.get(place)
    return own === undefined ? null : Math.min(own * factor, widestHalf(compiled, place))
  }
  const figure = criterionFollower(basis, nominalDb)
  const total = (factor: number) => figure(withHalfWidths(compiled, (at, now) => half(factor)(at) ?? now))
  let [narrow, wide] = [0, 1]
  if (isSampled(basis.criterion)) wide = WIDEST_FACTOR
  const whole = total(wide)
  if (whole <= limitDb || shared.size === 0) return { half: half(wide), totalDb: whole }
  for (let i = 0; i < (isSampled(basis.criterion) ? SAMPLED_BISECTIONS : BISECTIONS); i++) {
    const middle = (narrow + wide) / 2
    if (total(middle) <= limitDb) narrow = middle
    else wide = middle
  }
  return { half: half(narrow), totalDb: total(narrow) }
}

/**
 * How wide the tolerances of a candidate may be for a limit in dB. A weight above 1 gives a tolerance that is hard to
 * hold a larger share of the decibels, a weight of 0 leaves it out. By default all tolerances that are given share alike.
 */
export function allowances(
  compiled: SizedCandidate,
  limitDb: number,
  basis: SizingBasis,
  weightOf: (path: Path, now: number) => number = (_, now) => (now > 0 ? 1 : 0),
): Allowances {
  const sized = sizedPlaces(compiled)
  const nowAt = (at: number) => compiled.variables[at]?.spread.halfWidth ?? 0
  const weightAt = (at: number) => weightOf(compiled.variables[at]?.path ?? [], nowAt(at))
  const places = sized.filter((at) => weightAt(at) > 0)
  const nominalDb = lossOf(compiled, Float64Array.from(compiled.nominal))
  const { shared, room } = sharesOf(compiled, places, basis, nominalDb, limitDb, weightAt)
  const scaled = scaledToLimit(compiled, shared, basis, nominalDb, limitDb)
  return {
    nominalDb,
    limitDb,
    nowDb: criterionDb(compiled, basis, nominalDb),
    sharedDb: scaled.totalDb,
    possible: room > 0,
    rows: sized.flatMap((at): readonly Allowance[] => {
      const variable = compiled.variables[at]
      if (variable === undefined) return []
      const { path, label, rule, spread } = variable
      const half = scaled.half(at)
      const costly = nominalDb >= limitDb ? 0 : halfWidthFor(compiled, at, limitDb)
      // A gap that never costs so much still ends at contact.
      const alone =
        costly === null && rule !== 'gap'
          ? null
          : Math.min(costly ?? Number.MAX_VALUE, widestHalf(compiled, at))
      // A number without a tolerance is worth a row only where one would matter.
      if (spread.halfWidth === 0 && (alone === null || alone === 0)) return []
      return [
        {
          place: at,
          path,
          label,
          rule,
          now: spread.halfWidth,
          alone,
          shared: half,
        },
      ]
    }),
  }
}
