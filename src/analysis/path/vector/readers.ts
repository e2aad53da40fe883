// Every number of a chain becomes one place in a vector of values, so that tolerances, corners and draws
// can move any of them and ask for the loss again.

import type { Path } from '../../../model/issue'
import { coreValue, type Quantity } from '../../../model/quantity/quantity'
import { RULES, type RuleName } from '../../../model/quantity/quantityRules'
import { NO_SPREAD, spreadOf } from '../../../model/quantity/spread'
import { LIMITS } from '../../../model/words/limits'
import { requireInRange } from '../../../numerics/inputError'
import type { Variable } from '../../results/evaluation'

export type Values = Float64Array
export type Reader = (values: Values) => number

export interface ReaderTable {
  readonly variables: readonly Variable[]
  /**
   * Registers a quantity once per path and returns the function that reads it, in the core's unit. Throws InputError for a
   * tolerance below 0, which no file that was checked has.
   */
  readonly quantity: (quantity: Quantity, rule: RuleName, label: string, path: Path) => Reader
  /** A place of its own without a tolerance, 0 until somebody writes there; returns its number. */
  readonly place: (rule: RuleName, label: string, path: Path) => number
}

export function readerAt(place: number): Reader {
  return (values) => values[place] ?? Number.NaN
}

export function readerTable(): ReaderTable {
  const variables: Variable[] = []
  const places = new Map<string, number>()
  return {
    variables,
    quantity: (quantity, rule, label, path) => {
      const key = path.join('/')
      let place = places.get(key)
      if (place === undefined) {
        requireInRange('plusMinus', quantity.tolerance?.plusMinus ?? 0, 0, LIMITS.plusMinus)
        place = variables.length
        places.set(key, place)
        variables.push({
          path,
          label,
          rule,
          nominal: coreValue(quantity, rule),
          unit: quantity.unit,
          spread: spreadOf(quantity, rule),
        })
      }
      return readerAt(place)
    },
    place: (rule, label, path) => {
      variables.push({ path, label, rule, nominal: 0, unit: RULES[rule].unit, spread: NO_SPREAD })
      return variables.length - 1
    },
  }
}

export function constantReader(value: number): Reader {
  return () => value
}
