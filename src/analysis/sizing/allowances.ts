// The inverse job: how wide each tolerance may be for a loss limit, alone and shared out together.
//   alone    the largest half width at which the worse end still meets the limit, everything else at its nominal value
//   shared   every tolerance gets a share of the decibels that are left, by its weight, and the half width that costs it;
//            all of them are then scaled together until the basis meets the limit: corners work together

import type { Path } from '../../model/issue'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import type { Spread } from '../../model/quantity/spread'
import { InputError } from '../../numerics/inputError'
import { brentRoot } from '../../numerics/roots'
import { finish, type Steps, within } from '../../numerics/steps'
import { fitsMiss, missedDb } from '../tolerance/exactCorner'
import { criterionFollower, criterionSteps, isSampled, type SizingBasis } from './criteria'
import { type DirectPercentile, sampledScale } from './sampledScaling'
import { oneStep, sizedSlots, widestHalf } from './sizedSlots'
import type { SizedCandidate } from './wholeRow'

interface Allowance {
  readonly slot: number
  readonly path: Path
  readonly label: string
  readonly rule: RuleName
  /**
   * Half widths in the core's unit, `now` 0 where none is stated. `alone` is null where no width within reason costs so
   * much, `shared` also where the quantity is excluded from the allocation.
   */
  readonly now: number
  readonly alone: number | null
  readonly shared: number | null
}

export interface Allowances {
  readonly basis: SizingBasis
  readonly nominalDb: number
  readonly limitDb: number
  /** What the basis says with the tolerances as they are, and shared out. */
  readonly nowDb: number
  readonly sharedDb: number
  readonly rows: readonly Allowance[]
  /** False where the nominal loss and the tolerances that are not shared out leave nothing to share. */
  readonly possible: boolean
  /** How `sharedDb` was found where it is a percentile and the fit of a joint misses its target. */
  readonly direct: DirectPercentile | null
}

const FIRST_STEP = 1e-3
const GROWTH = 2
const REACH = 200
/** Relative; widths are written to three digits. */
const WIDTH_TOLERANCE = 1e-5
const BISECTIONS = 18
/** Share of the sharing that finding out what is left takes. */
const ROOM_SHARE = 0.2

/** Loss at the worse end of a half width of one quantity; beyond what the model covers it is hopeless. */
function worseEnd(compiled: SizedCandidate, draft: Float64Array, slot: number, half: number): number {
  const nominal = compiled.nominal[slot] ?? 0
  const { minCore, maxCore } = RULES[compiled.variables[slot]?.rule ?? 'offset']
  let worst = 0
  for (const side of [-1, 1]) {
    draft[slot] = Math.min(maxCore, Math.max(minCore, nominal + side * half))
    worst = Math.max(worst, lossOf(compiled, draft))
  }
  draft[slot] = nominal
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

/** The half width of one quantity at which its worse end reaches a loss, or null within 200 times the present one. */
type HalfWidthFor = (slot: number, lossDb: number) => number | null

/** Widths are tried outwards; what each costs is remembered, because one design is evaluated for several losses. */
function halfWidthsOf(compiled: SizedCandidate): HalfWidthFor {
  const draft = Float64Array.from(compiled.nominal)
  const scans = new Map<number, number[]>()
  return (slot, lossDb) => {
    const now = compiled.variables[slot]?.spread.halfWidth || oneStep(compiled, slot)
    const scan = scans.get(slot) ?? []
    scans.set(slot, scan)
    const halfAt = (i: number) => (i === 0 ? 0 : now * FIRST_STEP * GROWTH ** (i - 1))
    for (let i = 0; halfAt(i) <= now * REACH; i++) {
      const endDb = scan[i] ?? worseEnd(compiled, draft, slot, halfAt(i))
      scan[i] = endDb
      if (endDb < lossDb) continue
      if (i === 0) return 0
      const over = (half: number) => worseEnd(compiled, draft, slot, half) - lossDb
      const root = brentRoot(over, halfAt(i - 1), halfAt(i), { tolerance: WIDTH_TOLERANCE })
      return root.end === 'converged' ? root.x : null
    }
    return null
  }
}

/** Rounds in which a width follows what exact sums add at its worse end. */
const EXACT_ROUNDS = 3

/** The same with its worse end summed exactly, where a fit misses its target. */
function exactHalfWidthsOf(compiled: SizedCandidate, fitted: HalfWidthFor): HalfWidthFor {
  if (!fitsMiss(compiled)) return fitted
  const beyondDb = (slot: number, half: number) => {
    const ends = [-1, 1].map((side) => {
      const v = Float64Array.from(compiled.nominal)
      v[slot] = (v[slot] ?? 0) + side * half
      return { v, lossDb: lossOf(compiled, v) }
    })
    const missed = missedDb(compiled, ends)
    if (missed === 'pending') return 0
    const exact = ends.map(({ lossDb }, i) => lossDb + (missed[i] ?? 0))
    return Math.max(...exact) - Math.max(...ends.map(({ lossDb }) => lossDb))
  }
  return (slot, lossDb) => {
    let half = fitted(slot, lossDb)
    for (let i = 0; i < EXACT_ROUNDS && half !== null && half > 0; i++)
      half = fitted(slot, lossDb - beyondDb(slot, half))
    return half
  }
}

/** A tolerance that is not stated yet is treated as uniform, as one that is entered is. */
function withHalf(spread: Spread, halfWidth: number): Spread {
  const distribution = halfWidth > 0 && spread.distribution === 'fixed' ? 'uniform' : spread.distribution
  return { ...spread, halfWidth, distribution }
}

/** The candidate with other half widths, everything else the same. */
function withHalfWidths(
  compiled: SizedCandidate,
  half: (slot: number, now: number) => number,
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
function* roomSteps(
  compiled: SizedCandidate,
  slots: readonly number[],
  basis: SizingBasis,
  nominalDb: number,
  limitDb: number,
): Steps<number> {
  const others = withHalfWidths(compiled, (at, now) => (slots.includes(at) ? 0 : now))
  const used = (yield* criterionSteps(others, basis, nominalDb)) - nominalDb
  const all = limitDb - nominalDb
  if (all <= used) return 0
  return basis.criterion === 'worst case' ? all - used : Math.sqrt(all * all - used * used)
}

interface Shares {
  readonly shared: ReadonlyMap<number, number>
  readonly room: number
}

/**
 * The half width of every tolerance that costs its share. One that never costs so much keeps its width, and what it
 * leaves goes to the others.
 */
function* shareSteps(
  compiled: SizedCandidate,
  slots: readonly number[],
  basis: SizingBasis,
  nominalDb: number,
  limitDb: number,
  weightAt: (slot: number) => number,
  halfWidthFor: HalfWidthFor,
): Steps<Shares> {
  const room = yield* within(0, ROOM_SHARE, roomSteps(compiled, slots, basis, nominalDb, limitDb))
  if (room === 0) return { shared: new Map(), room }
  const weights = slots.map(weightAt)
  const whole =
    basis.criterion === 'worst case'
      ? weights.reduce((sum, weight) => sum + weight, 0)
      : Math.sqrt(weights.reduce((sum, weight) => sum + weight * weight, 0))
  const shared = new Map<number, number>()
  for (const [i, at] of slots.entries()) {
    yield ROOM_SHARE + ((1 - ROOM_SHARE) * i) / slots.length
    const half = halfWidthFor(at, nominalDb + (room * (weights[i] ?? 1)) / whole)
    if (half !== null && half <= widestHalf(compiled, at)) shared.set(at, half)
  }
  if (shared.size === slots.length) return { shared, room }
  return yield* shareSteps(compiled, [...shared.keys()], basis, nominalDb, limitDb, weightAt, halfWidthFor)
}

interface Scaled {
  readonly half: (slot: number) => number | null
  readonly totalDb: number
  readonly direct: DirectPercentile | null
}

/**
 * Scales shared half widths together until the basis meets the limit. Sums of single losses can only ask for narrower ones;
 * a percentile may allow wider ones too.
 */
function* scalingSteps(
  compiled: SizedCandidate,
  shared: ReadonlyMap<number, number>,
  basis: SizingBasis,
  nominalDb: number,
  limitDb: number,
): Steps<Scaled> {
  const half = (factor: number) => (slot: number) => {
    const own = shared.get(slot)
    return own === undefined ? null : Math.min(own * factor, widestHalf(compiled, slot))
  }
  const scaled = (factor: number) => withHalfWidths(compiled, (at, now) => half(factor)(at) ?? now)
  if (isSampled(basis.criterion) && shared.size > 0) {
    const everyChannel = basis.criterion === 'all channels'
    const { factor, ...found } = yield* sampledScale(scaled, everyChannel, basis.share, limitDb)
    return { half: half(factor), ...found }
  }
  const figure = criterionFollower(basis, nominalDb)
  const part = (done: number, factor: number) =>
    within(done / (BISECTIONS + 1), (done + 1) / (BISECTIONS + 1), figure(scaled(factor)))
  let [narrow, wide] = [0, 1]
  const whole = yield* part(0, wide)
  if (whole <= limitDb || shared.size === 0) return { half: half(wide), totalDb: whole, direct: null }
  let totalDb: number | null = null
  for (let i = 1; i <= BISECTIONS; i++) {
    const middle = (narrow + wide) / 2
    const middleDb = yield* part(i, middle)
    if (middleDb <= limitDb) {
      narrow = middle
      totalDb = middleDb
    } else wide = middle
  }
  return { half: half(narrow), totalDb: totalDb ?? (yield* part(BISECTIONS, narrow)), direct: null }
}

/**
 * How wide the tolerances of a candidate may be for a limit in dB. A weight above 1 gives a tolerance that is hard to
 * hold a larger share of the decibels; a weight of 0 excludes it. By default all tolerances that are given share alike.
 */
export function* allowanceSteps(
  compiled: SizedCandidate,
  limitDb: number,
  basis: SizingBasis,
  weightOf: (path: Path, now: number) => number = (_, now) => (now > 0 ? 1 : 0),
): Steps<Allowances> {
  const sized = sizedSlots(compiled)
  const nowAt = (at: number) => compiled.variables[at]?.spread.halfWidth ?? 0
  const weightAt = (at: number) => weightOf(compiled.variables[at]?.path ?? [], nowAt(at))
  const slots = sized.filter((at) => weightAt(at) > 0)
  const nominalDb = lossOf(compiled, Float64Array.from(compiled.nominal))
  const halfWidthFor = halfWidthsOf(compiled)
  const aloneFor = exactHalfWidthsOf(compiled, halfWidthFor)
  const { shared, room } = yield* within(
    0,
    0.4,
    shareSteps(compiled, slots, basis, nominalDb, limitDb, weightAt, halfWidthFor),
  )
  const scaled = yield* within(0.4, 0.8, scalingSteps(compiled, shared, basis, nominalDb, limitDb))
  const nowDb = yield* within(0.8, 0.85, criterionSteps(compiled, basis, nominalDb))
  const rows: Allowance[] = []
  for (const [i, at] of sized.entries()) {
    yield 0.85 + (0.15 * i) / sized.length
    const variable = compiled.variables[at]
    if (variable === undefined) continue
    const { path, label, rule, spread } = variable
    const costly = nominalDb >= limitDb ? 0 : aloneFor(at, limitDb)
    // A gap that never costs so much still ends at contact.
    const alone =
      costly === null && rule !== 'gap'
        ? null
        : Math.min(costly ?? Number.MAX_VALUE, widestHalf(compiled, at))
    // A quantity without a tolerance has a row only where a tolerance would matter.
    if (spread.halfWidth === 0 && (alone === null || alone === 0)) continue
    rows.push({ slot: at, path, label, rule, now: spread.halfWidth, alone, shared: scaled.half(at) })
  }
  return {
    basis,
    nominalDb,
    limitDb,
    nowDb,
    sharedDb: scaled.totalDb,
    possible: room > 0 && scaled.totalDb <= limitDb,
    direct: scaled.direct,
    rows,
  }
}

/** The same at once. */
export const allowances = (...how: Parameters<typeof allowanceSteps>): Allowances =>
  finish(allowanceSteps(...how))
