// How bad it gets when tolerances are used up: the worst corner, and the root sum of squares.

import { spreadEnds } from '../../model/quantity/spread'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { CornerSetting, Evaluation } from '../results/evaluation'

/** With at most this many toleranced quantities every corner is tried. */
const EXHAUSTIVE_UP_TO = 10

function toleranced(compiled: CompiledCandidate): readonly number[] {
  return compiled.variables.flatMap((variable, at) => (variable.spread.halfWidth > 0 ? [at] : []))
}

/** Values at a corner; a draft that the caller owns is overwritten. */
function placeAt(compiled: CompiledCandidate, at: number, sign: number, draft: Float64Array): void {
  const variable = compiled.variables[at]
  if (variable === undefined) return
  const [low, high] = spreadEnds(variable.spread)
  draft[at] = variable.nominal + (sign < 0 ? low : sign > 0 ? high : 0)
}

/**
 * Each quantity alone at the worse end of its tolerance, added as squares to the nominal loss.
 * Assumes that the quantities are independent; says nothing about probability.
 */
export function rootSumSquare(compiled: CompiledCandidate, nominalDb: number): Evaluation['rootSumSquare'] {
  const draft = Float64Array.from(compiled.nominal)
  const contributions = toleranced(compiled).map((at) => {
    const ends = ([-1, 1] as const).map((sign) => {
      placeAt(compiled, at, sign, draft)
      return compiled.lossDb(draft)
    })
    placeAt(compiled, at, 0, draft)
    const { label, path } = compiled.variables[at] as { label: string; path: readonly (string | number)[] }
    return { label, path, addedDb: Math.max(0, ...ends.map((end) => end - nominalDb)) }
  })
  const added = Math.sqrt(contributions.reduce((sum, each) => sum + each.addedDb ** 2, 0))
  return {
    lossDb: nominalDb + added,
    contributions: contributions.sort((a, b) => b.addedDb - a.addedDb),
  }
}

/** Flips one sign, then pairs of signs, as long as the loss grows. Pairs matter: offset and tilt work together. */
function climb(
  compiled: CompiledCandidate,
  places: readonly number[],
  signs: (-1 | 1)[],
  draft: Float64Array,
): number {
  const set = (i: number) => placeAt(compiled, places[i] ?? 0, signs[i] ?? 1, draft)
  const flip = (i: number) => {
    signs[i] = signs[i] === 1 ? -1 : 1
    set(i)
  }
  for (let i = 0; i < places.length; i++) set(i)
  let best = compiled.lossDb(draft)
  const attempt = (i: number, j: number): boolean => {
    flip(i)
    if (j !== i) flip(j)
    const lossDb = compiled.lossDb(draft)
    if (lossDb > best + 1e-12) {
      best = lossDb
      return true
    }
    flip(i)
    if (j !== i) flip(j)
    return false
  }
  // Single flips get most of the way at little cost; pairs then find what only two together gain.
  for (let improved = true; improved; ) {
    for (let single = true; single; ) {
      single = false
      for (let i = 0; i < places.length; i++) if (attempt(i, i)) single = true
    }
    improved = false
    for (let i = 0; i < places.length; i++) {
      for (let j = i + 1; j < places.length; j++) if (attempt(i, j)) improved = true
    }
  }
  return best
}

/** Corners to climb from: all at one end, all at the other, alternating, and few or all of the rest. */
function starts(count: number): readonly (-1 | 1)[][] {
  const corner = (mask: number): (-1 | 1)[] =>
    Array.from({ length: count }, (_, i) => ((mask >> (i % 30)) & 1 ? 1 : -1))
  if (count <= EXHAUSTIVE_UP_TO) return Array.from({ length: 2 ** count }, (_, mask) => corner(mask))
  return [0, 0x3fffffff, 0x15555555, 0x2aaaaaaa].map(corner)
}

/**
 * The largest loss over the corners of all tolerances. Signs are searched together, not each alone;
 * `exhaustive` tells whether every corner was tried or the search climbed from several.
 */
export function worstCorner(compiled: CompiledCandidate): Evaluation['worstCorner'] {
  const places = toleranced(compiled)
  const draft = Float64Array.from(compiled.nominal)
  const exhaustive = places.length <= EXHAUSTIVE_UP_TO
  let best = { lossDb: Number.NEGATIVE_INFINITY, signs: [] as readonly (-1 | 1)[] }
  for (const signs of starts(places.length)) {
    let lossDb: number
    if (exhaustive) {
      for (const [i, at] of places.entries()) placeAt(compiled, at, signs[i] ?? 1, draft)
      lossDb = compiled.lossDb(draft)
    } else {
      lossDb = climb(compiled, places, signs, draft)
    }
    if (lossDb > best.lossDb) best = { lossDb, signs: [...signs] }
  }
  const settings = places.map((at, i): CornerSetting => {
    const { label, path } = compiled.variables[at] as { label: string; path: readonly (string | number)[] }
    return { label, path, sign: best.signs[i] ?? 1 }
  })
  return { lossDb: best.lossDb, settings, exhaustive }
}

/** The worst corner of the same tolerances under other conditions, climbed to from a corner that is known. */
export function worstCornerNear(
  compiled: CompiledCandidate,
  { settings }: Evaluation['worstCorner'],
): number {
  const signs = settings.map((each) => each.sign)
  return climb(compiled, toleranced(compiled), signs, Float64Array.from(compiled.nominal))
}
