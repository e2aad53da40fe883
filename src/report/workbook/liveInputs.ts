// The inputs of a candidate's live budget: which quantities move it directly, and which numbers replace what has no
// closed form (the mode of a core, the spot of a tip).

import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import type { Values } from '../../analysis/path/vector/valueReaders'
import type { Evaluation, Variable } from '../../analysis/results/evaluation'
import type { Path } from '../../model/issue'
import { RULES } from '../../model/quantity/quantityRules'
import { spreadEnds } from '../../model/quantity/spread'
import { unitFactor } from '../../model/quantity/units'
import type { FormulaTerm } from './term'

/** One set of values of the budget: nominal, the worst case, or one tolerance at one of its ends. */
export interface Scenario {
  readonly title: string
  /** By slot in the vector: -1 at the lower end, 1 at the upper, absent at nominal. */
  readonly signs: ReadonlyMap<number, -1 | 1>
  readonly values: Values
  /** Cells that hold the signs, where the workbook itself chooses them; `signs` and `values` are then what they are compared with. */
  readonly signCells?: ReadonlyMap<number, FormulaTerm>
}

/** Some values with one tolerance moved to one of its ends. */
export function atEnd({ variables }: CompiledCandidate, values: Values, slot: number, sign: -1 | 1): Values {
  const moved = Float64Array.from(values)
  const variable = variables[slot]
  if (variable === undefined) return moved
  const [low, high] = spreadEnds(variable.spread)
  moved[slot] = variable.nominal + (sign < 0 ? low : high)
  return moved
}

/** The values of a scenario with one tolerance at its other end. */
export function flipped(compiled: CompiledCandidate, { signs, values }: Scenario, slot: number): Values {
  return atEnd(compiled, values, slot, signs.get(slot) === 1 ? -1 : 1)
}

/** Loss with one tolerance at one of its ends and everything else nominal, dB. */
export function singleLossDb(compiled: CompiledCandidate, slot: number, sign: -1 | 1): number {
  return compiled.lossDb(atEnd(compiled, compiled.nominal, slot, sign))
}

/**
 * What each tolerance alone adds by the exact sums of RSS beyond the fit that its lines use, dB, the same at both ends; none where the
 * fits meet their target.
 */
export function beyondFitAlone(
  compiled: CompiledCandidate,
  { rootSumSquare, nominalDb }: Pick<Evaluation, 'rootSumSquare' | 'nominalDb'>,
): ReadonlyMap<number, number> {
  if (compiled.joins.every(({ fitMissesDb }) => fitMissesDb === undefined)) return new Map()
  return new Map(
    rootSumSquare.contributions.map(({ path, addedDb }) => {
      const slot = compiled.variables.findIndex((variable) => variable.path.join('/') === path.join('/'))
      const ends = ([-1, 1] as const).map((sign) => singleLossDb(compiled, slot, sign) - nominalDb)
      const fittedDb = Math.max(...ends)
      return [slot, addedDb > 0 ? addedDb - fittedDb : -Math.max(0, fittedDb)]
    }),
  )
}

export function tolerancedSlots({ variables }: CompiledCandidate): readonly number[] {
  return variables.flatMap(({ spread }, slot) => (spread.halfWidth > 0 ? [slot] : []))
}

function scenario(compiled: CompiledCandidate, title: string, signs: ReadonlyMap<number, -1 | 1>): Scenario {
  const values = Array.from(signs).reduce<Values>(
    (moved, [slot, sign]) => atEnd(compiled, moved, slot, sign),
    compiled.nominal,
  )
  return { title, signs, values }
}

/** Nominal, the worst case as the core found it, then every tolerance alone at its lower and its upper end. */
export function scenarios(
  compiled: CompiledCandidate,
  corner: readonly { readonly path: Path; readonly sign: -1 | 1 }[],
): readonly Scenario[] {
  const slot = (path: Path) =>
    compiled.variables.findIndex((variable) => variable.path.join('/') === path.join('/'))
  return [
    scenario(compiled, 'Nominal', new Map()),
    scenario(
      compiled,
      'Worst case, signs as exported',
      new Map(corner.map(({ path, sign }) => [slot(path), sign])),
    ),
    ...tolerancedSlots(compiled).flatMap((at) => {
      const label = compiled.variables[at]?.label ?? ''
      return [
        scenario(compiled, `${label}, lower limit`, new Map([[at, -1]])),
        scenario(compiled, `${label}, upper limit`, new Map([[at, 1]])),
      ]
    }),
  ]
}

/** Size of the unit in which the person gave a quantity, in the core's. */
export function unitSizeOf({ rule, unit }: Variable): number {
  return unitFactor(RULES[rule].dimension, unit) ?? 1
}

export type Read = (values: Values) => number

/** Steps by which it is tried whether a number is a quantity itself, relative and, from zero, absolute. */
const TRIALS = [1e-3, -2e-3] as const

/**
 * The slot of the quantity that a number of the chain simply is; null where it is computed from several or from none.
 * Found by trying: the number follows this quantity exactly and no other. Places without a quantity, such as the temperature
 * rise, stay at zero.
 */
export function slotOfNumber({ variables, nominal }: CompiledCandidate, read: Read): number | null {
  const start = read(nominal)
  const draft = Float64Array.from(nominal)
  const answers = (slot: number, at: number) =>
    TRIALS.map((step) => {
      const value = at === 0 ? step : at * (1 + step)
      draft[slot] = value
      const answer = read(draft)
      draft[slot] = at
      return { value, answer }
    })
  const slots = variables.flatMap(({ path }, slot) => (path[0] === 'operating' ? [] : [slot]))
  const follows = (slot: number) =>
    nominal[slot] === start && answers(slot, start).every(({ value, answer }) => value === answer)
  const own = slots.find(follows)
  if (own === undefined) return null
  const others = slots.filter((slot) => slot !== own)
  const alone = others.every((slot) =>
    answers(slot, nominal[slot] ?? 0).every(({ answer }) => answer === start),
  )
  return alone ? own : null
}
