// From points of the unit cube to the values of assemblies: each toleranced quantity gets one coordinate.

import { RULES } from '../../model/quantity/quantityRules'
import { UNIT_LEAST } from '../../numerics/random/randomWords'
import type { Columns } from '../path/vector/columns'
import type { Values } from '../path/vector/valueReaders'
import type { Variable } from '../results/evaluation'
import { deviateEach, deviationOf } from './deviation'

export interface Draws {
  /** Places of the toleranced quantities in the vector of values. */
  readonly slots: readonly number[]
  /**
   * Turns the first `count` points into deviations from the nominal values, in place. The coordinates of a point lie next to
   * one another, as many as there are slots; of wider points, `stride` apart, they begin at `first`.
   */
  readonly deviate: (points: Float64Array, count: number, stride?: number, first?: number) => void
  /**
   * Writes the values of the assembly over `values` whose deviations begin at `from`; the others stay. `factors` narrow
   * (below 1) or widen the tolerances, one for each of `slots`. A sample beyond the physical range of the quantity is clamped there.
   */
  readonly set: (deviations: Float64Array, from: number, values: Values, factors?: Float64Array) => void
  /**
   * `deviate` and `set` for the first `count` points whose coordinates the columns of the drawn slots hold; these must be all
   * columns, in this order.
   */
  readonly fill: (count: number, columns: Columns) => void
  /** Both for a single point, which stays as it is. */
  readonly apply: (point: Float64Array, values: Values, factors?: Float64Array) => void
}

function clamp(values: Float64Array, from: number, end: number, low: number, high: number): void {
  for (let i = from; i < end; i++) values[i] = Math.max(low, Math.min(high, values[i] as number))
}

/** The samples of all toleranced quantities, or of those that `keep` accepts. */
export function drawsOf(
  variables: readonly Variable[],
  keep: (variable: Variable) => boolean = () => true,
): Draws {
  const toleranced = variables.flatMap((variable, slot) =>
    variable.spread.halfWidth === 0 || !keep(variable) ? [] : [{ ...variable, slot }],
  )
  const width = toleranced.length
  const slots = Int32Array.from(toleranced, ({ slot }) => slot)
  const nominal = Float64Array.from(toleranced, (variable) => variable.nominal)
  const least = Float64Array.from(toleranced, ({ rule }) => RULES[rule].minCore)
  const most = Float64Array.from(toleranced, ({ rule }) => RULES[rule].maxCore)
  const each = toleranced.map(({ spread }) => deviateEach(spread))
  const deviate: Draws['deviate'] = (points, count, stride = width, first = 0) => {
    for (let i = 0; i < width; i++) each[i]?.(points, first + i, stride * count, stride)
  }
  const set: Draws['set'] = (deviations, from, values, factors) => {
    for (let i = 0; i < width; i++) {
      const deviation = deviations[from + i] as number
      const factor = factors === undefined ? 1 : (factors[i] as number)
      const value = (nominal[i] as number) + factor * deviation
      values[slots[i] as number] = Math.max(least[i] as number, Math.min(most[i] as number, value))
    }
  }
  const sampleEach = toleranced.map(({ spread, nominal: value }) => deviateEach(spread, value))
  const staysInside = toleranced.map(({ spread, nominal: value }, i) => {
    const deviation = deviationOf(spread)
    return (
      value + deviation(UNIT_LEAST) >= (least[i] as number) &&
      value + deviation(1 - UNIT_LEAST) <= (most[i] as number)
    )
  })
  const fill: Draws['fill'] = (count, { sampled, size, begin }) => {
    for (let i = 0; i < width; i++) {
      const from = i * size
      sampleEach[i]?.(sampled, from, from + count, 1)
      if (!staysInside[i]) clamp(sampled, from, from + count, least[i] as number, most[i] as number)
    }
    begin(count)
  }
  const own = new Float64Array(width)
  return {
    slots: Array.from(slots),
    deviate,
    set,
    fill,
    apply: (point, values, factors) => {
      for (let i = 0; i < width; i++) own[i] = point[i] as number
      deviate(own, 1)
      set(own, 0, values, factors)
    },
  }
}
