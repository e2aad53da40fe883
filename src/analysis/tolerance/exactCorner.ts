// The worst case by the real joints themselves. The search climbs by fits, which may be off by a tenth of a dB at a far corner; the
// corner that it found, and the next ones, are then summed exactly, and the largest is used.

import { spreadEnds } from '../../model/quantity/spread'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { CornerSetting, Evaluation } from '../results/evaluation'

/** Corners whose fitted loss is within this of the one found may in fact be worse, dB. */
const NEAR_DB = 0.3
/** Maximum number of them that are summed. */
const MOST_NEAR = 3
/** Corners of losses that differ by less are mirror images. */
const SAME_DB = 1e-5

interface Corner {
  readonly signs: readonly (-1 | 1)[]
  readonly v: Float64Array
  readonly lossDb: number
}

/** The slots of the vector that settings refer to. */
function slotsOf({ variables }: CompiledCandidate, settings: readonly CornerSetting[]): readonly number[] {
  return settings.map(({ path }) => variables.findIndex((variable) => variable.path === path))
}

function cornerAt(
  { variables, nominal, lossDb }: CompiledCandidate,
  slots: readonly number[],
  signs: readonly (-1 | 1)[],
): Corner {
  const v = Float64Array.from(nominal)
  for (const [i, slot] of slots.entries()) {
    const variable = variables[slot]
    if (variable === undefined) continue
    const [low, high] = spreadEnds(variable.spread)
    v[slot] = variable.nominal + ((signs[i] ?? 1) < 0 ? low : high)
  }
  return { signs, v, lossDb: lossDb(v) }
}

/** The corners one or two signs away that lose nearly as much, the worst first. */
function nearCorners(compiled: CompiledCandidate, slots: readonly number[], found: Corner): Corner[] {
  const near: Corner[] = []
  for (let i = 0; i < slots.length; i++) {
    for (let j = i; j < slots.length; j++) {
      const signs = found.signs.map((sign, k) => (k === i || k === j ? (sign === 1 ? -1 : 1) : sign))
      const corner = cornerAt(compiled, slots, signs)
      if (corner.lossDb > found.lossDb - NEAR_DB) near.push(corner)
    }
  }
  const kept: Corner[] = []
  for (const corner of near.sort((a, b) => b.lossDb - a.lossDb)) {
    const isNew = [found, ...kept].every(({ lossDb }) => Math.abs(lossDb - corner.lossDb) > SAME_DB)
    if (isNew && kept.length < MOST_NEAR) kept.push(corner)
  }
  return kept
}

/** Whether the fit of a joint misses its target, so that what is read from it is summed exactly. */
export const fitsMiss = ({ joins }: CompiledCandidate): boolean =>
  joins.some(({ fitMissesDb }) => fitMissesDb !== undefined)

/** What the exact joints lose beyond the fitted ones at each vector of values, dB; 'pending' where one of them is not known yet. */
export function missedDb(
  { joins }: CompiledCandidate,
  corners: readonly Pick<Corner, 'v'>[],
): readonly number[] | 'pending' {
  const sums = corners.map(() => 0)
  let pending = false
  for (const { beyondFitDb } of joins) {
    const beyond = beyondFitDb?.(corners.map(({ v }) => v))
    if (beyond === 'pending') pending = true
    else if (beyond !== undefined) for (const [i, each] of beyond.entries()) sums[i] = (sums[i] ?? 0) + each
  }
  return pending ? 'pending' : sums
}

/** The worst case with its joints summed exactly; as it was found, and marked so, as long as they are not known. */
export function exactCorner(
  compiled: CompiledCandidate,
  found: Evaluation['worstCorner'],
): Evaluation['worstCorner'] {
  if (compiled.joins.every(({ beyondFitDb }) => beyondFitDb === undefined)) return found
  const slots = slotsOf(compiled, found.settings)
  const first = cornerAt(
    compiled,
    slots,
    found.settings.map(({ sign }) => sign),
  )
  const corners = [first, ...nearCorners(compiled, slots, first)]
  const missed = missedDb(compiled, corners)
  if (missed === 'pending') return { ...found, isProvisional: true }
  const losses = corners.map(({ lossDb }, i) => lossDb + (missed[i] ?? 0))
  const lossDb = Math.max(...losses)
  const worst = corners[losses.indexOf(lossDb)] ?? first
  return {
    ...found,
    lossDb,
    settings: found.settings.map((setting, i) => ({ ...setting, sign: worst.signs[i] ?? setting.sign })),
  }
}

/** What the exact joints add to a worst case that was followed to other conditions, dB; 0 as long as it is not known. */
export function cornerBeyondDb(compiled: CompiledCandidate, { settings }: Evaluation['worstCorner']): number {
  if (compiled.joins.every(({ beyondFitDb }) => beyondFitDb === undefined)) return 0
  const slots = slotsOf(compiled, settings)
  const corner = cornerAt(
    compiled,
    slots,
    settings.map(({ sign }) => sign),
  )
  const missed = missedDb(compiled, [corner])
  return missed === 'pending' ? 0 : (missed[0] ?? 0)
}
