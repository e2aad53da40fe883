// From a point of the unit cube to the values of one assembly: each toleranced quantity gets one coordinate.

import { RULES } from '../../model/quantity/quantityRules'
import type { Values } from '../path/vector/readers'
import type { Variable } from '../results/evaluation'
import { type Deviation, deviationOf } from './deviation'

export interface Draws {
  /** Places of the toleranced quantities in the vector of values. */
  readonly places: readonly number[]
  /**
   * Writes the sampled values of the point's assembly over `values`; the others stay. `factors` narrow (below 1) or
   * widen the tolerances, one for each of `places`. A sample beyond the physical range of the quantity is clamped there.
   */
  readonly apply: (point: Float64Array, values: Values, factors?: Float64Array) => void
}

interface Drawn {
  readonly place: number
  readonly nominal: number
  readonly deviation: Deviation
  readonly least: number
  readonly most: number
}

/** The samples of all toleranced quantities, or of those that `keep` accepts. */
export function drawsOf(
  variables: readonly Variable[],
  keep: (variable: Variable) => boolean = () => true,
): Draws {
  const drawn: readonly Drawn[] = variables.flatMap((variable, place) => {
    const { nominal, spread, rule } = variable
    if (spread.halfWidth === 0 || !keep(variable)) return []
    const { minCore, maxCore } = RULES[rule]
    return [{ place, nominal, deviation: deviationOf(spread), least: minCore, most: maxCore }]
  })
  return {
    places: drawn.map((each) => each.place),
    apply: (point, values, factors) => {
      for (let i = 0; i < drawn.length; i++) {
        const each = drawn[i]
        if (each === undefined) continue
        const factor = factors === undefined ? 1 : (factors[i] ?? 1)
        const value = each.nominal + factor * each.deviation(point[i] ?? 0.5)
        values[each.place] = Math.max(each.least, Math.min(each.most, value))
      }
    },
  }
}
