// Loss with tolerances at their limits: the worst case, and RSS.

import { spreadEnds } from '../../model/quantity/spread'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { CornerSetting, Evaluation } from '../results/evaluation'
import { type MovingTotal, movingTotal } from './movingTotal'

/** Losses closer than this are those of one corner: far above rounding, far below what a tolerance changes, dB. */
const SAME_DB = 1e-10

/** Up to this many toleranced quantities, every combination of limits is evaluated. */
const EXHAUSTIVE_UP_TO = 10

function toleranced(compiled: CompiledCandidate): readonly number[] {
  return compiled.variables.flatMap((variable, at) => (variable.spread.halfWidth > 0 ? [at] : []))
}

/** The value of a variable at an end of its tolerance, or in the middle for 0. */
function valueAt(compiled: CompiledCandidate, at: number, sign: number): number {
  const variable = compiled.variables[at]
  if (variable === undefined) return Number.NaN
  const [low, high] = spreadEnds(variable.spread)
  return variable.nominal + (sign < 0 ? low : sign > 0 ? high : 0)
}

/**
 * Each quantity alone at the worse end of its tolerance, added as squares to the nominal loss.
 * Assumes that the quantities are independent; says nothing about probability.
 */
export function rootSumSquare(compiled: CompiledCandidate, nominalDb: number): Evaluation['rootSumSquare'] {
  const total = movingTotal(compiled)
  const contributions = toleranced(compiled).map((at) => {
    const ends = ([-1, 1] as const).map((sign) => {
      total.begin()
      total.set(at, valueAt(compiled, at, sign))
      const endDb = total.totalDb()
      total.undo()
      return endDb
    })
    const { label, path } = compiled.variables[at] as { label: string; path: readonly (string | number)[] }
    return { label, path, addedDb: Math.max(0, ...ends.map((end) => end - nominalDb)) }
  })
  const added = Math.sqrt(contributions.reduce((sum, each) => sum + each.addedDb ** 2, 0))
  return {
    lossDb: nominalDb + added,
    contributions: contributions.sort((a, b) => b.addedDb - a.addedDb),
  }
}

interface Corner {
  readonly lossDb: number
  readonly signs: readonly (-1 | 1)[]
}

/** The ends of every toleranced quantity, and the loss with each at one of them. */
interface Corners {
  readonly slots: readonly number[]
  /** What may gain more together than each alone, as slots in `slots`. */
  readonly pairs: readonly (readonly [number, number])[]
  readonly total: MovingTotal
  readonly endOf: (i: number, sign: number) => number
  /**
   * Where climbs have ended, with the losses at which they began to look for pairs: two that meet go on as one. Corners of one
   * loss are one corner, its mirror image, or differ in what does not matter; all of them lead equally high.
   */
  readonly ends: (Corner & { readonly from: readonly number[] })[]
}

/** The same for a path under all conditions, and so found once. */
const pairsOfTerms = new WeakMap<CompiledCandidate['terms'], Corners['pairs']>()

/** Two quantities that no summand of the loss reads together gain nothing as a pair that they do not gain alone. */
function pairsOf(slots: readonly number[], terms: CompiledCandidate['terms']): Corners['pairs'] {
  const known = pairsOfTerms.get(terms)
  if (known !== undefined) return known
  const readers = slots.map((slot) => terms.map(({ reads }) => reads.has(slot)))
  const pairs: (readonly [number, number])[] = []
  for (const [i, one] of readers.entries()) {
    for (let j = i + 1; j < readers.length; j++) {
      if (one.some((reads, term) => reads && readers[j]?.[term])) pairs.push([i, j])
    }
  }
  pairsOfTerms.set(terms, pairs)
  return pairs
}

function cornersOf(compiled: CompiledCandidate): Corners {
  const slots = toleranced(compiled)
  const ends = slots.map((at) => [valueAt(compiled, at, -1), valueAt(compiled, at, 1)] as const)
  return {
    slots,
    pairs: pairsOf(slots, compiled.terms),
    total: movingTotal(compiled),
    endOf: (i, sign) => ends[i]?.[sign < 0 ? 0 : 1] ?? Number.NaN,
    ends: [],
  }
}

function lossAt({ slots, total, endOf }: Corners, signs: readonly number[]): number {
  total.begin()
  for (const [i, slot] of slots.entries()) total.set(slot, endOf(i, signs[i] ?? 1))
  return total.totalDb()
}

/**
 * Flips one sign, then pairs of signs, as long as the loss grows. Pairs matter: offset and tilt work together.
 */
function climb(corners: Corners, signs: (-1 | 1)[]): Corner {
  const { slots, pairs, total, endOf, ends } = corners
  let best = lossAt(corners, signs)
  const flip = (i: number) => {
    signs[i] = signs[i] === 1 ? -1 : 1
  }
  /** Flips one quantity, or two different ones, and keeps that where the loss grows. */
  const attempt = (i: number, j: number): boolean => {
    total.begin()
    total.set(slots[i] ?? 0, endOf(i, -(signs[i] ?? 1)))
    if (j !== i) total.set(slots[j] ?? 0, endOf(j, -(signs[j] ?? 1)))
    const lossDb = total.totalDb()
    if (!(lossDb > best + 1e-12)) {
      total.undo()
      return false
    }
    best = lossDb
    flip(i)
    if (j !== i) flip(j)
    return true
  }
  // Single flips get most of the way at little cost; pairs then find what only two together gain.
  const settleSingles = () => untilNoneGains(slots.length, (i) => attempt(i, i))
  const passed: number[] = []
  let met: Corners['ends'][number] | undefined
  const meets = (): boolean => {
    met = ends.find(({ from }) => from.some((lossDb) => Math.abs(lossDb - best) < SAME_DB))
    if (met === undefined) passed.push(best)
    return met !== undefined
  }
  settleSingles()
  if (!meets()) {
    untilNoneGains(pairs.length, (at) => {
      const [i, j] = pairs[at] ?? [0, 0]
      if (met !== undefined || !attempt(i, j)) return false
      settleSingles()
      return !meets()
    })
  }
  const end = { lossDb: met?.lossDb ?? best, signs: met?.signs ?? [...signs] }
  ends.push({ from: passed, ...end })
  return end
}

/** Tries the moves round and round until none has gained since the last that did. */
function untilNoneGains(count: number, gains: (move: number) => boolean): void {
  // Undoing a move that has gained cannot gain.
  for (let move = 0, failed = 0; failed < count; move = (move + 1) % count)
    failed = gains(move) ? 1 : failed + 1
}

/** Combinations to climb from: all at one end, all at the other, alternating, and few or all of the rest. */
function starts(count: number): readonly (-1 | 1)[][] {
  const corner = (mask: number): (-1 | 1)[] =>
    Array.from({ length: count }, (_, i) => ((mask >> (i % 30)) & 1 ? 1 : -1))
  if (count <= EXHAUSTIVE_UP_TO) return Array.from({ length: 2 ** count }, (_, mask) => corner(mask))
  return [0, 0x3fffffff, 0x15555555, 0x2aaaaaaa].map(corner)
}

/**
 * The largest loss over the combinations of limits of all tolerances. Signs are searched together, not each alone;
 * `exhaustive` states whether every combination was tried or the search climbed from several.
 */
export function worstCorner(compiled: CompiledCandidate): Evaluation['worstCorner'] {
  const corners = cornersOf(compiled)
  const { slots } = corners
  const exhaustive = slots.length <= EXHAUSTIVE_UP_TO
  let best: Corner = { lossDb: Number.NEGATIVE_INFINITY, signs: [] }
  for (const signs of starts(slots.length)) {
    const corner = exhaustive ? { lossDb: lossAt(corners, signs), signs } : climb(corners, signs)
    if (corner.lossDb > best.lossDb) best = corner
  }
  const settings = slots.map((at, i): CornerSetting => {
    const { label, path } = compiled.variables[at] as { label: string; path: readonly (string | number)[] }
    return { label, path, sign: best.signs[i] ?? 1 }
  })
  return { lossDb: best.lossDb, settings, exhaustive }
}

/** The worst case of the same tolerances under other conditions, climbed to from a known combination. */
export function worstCornerNear(
  compiled: CompiledCandidate,
  { settings }: Evaluation['worstCorner'],
): number {
  return climb(
    cornersOf(compiled),
    settings.map((each) => each.sign),
  ).lossDb
}
