// Every number of a chain becomes one slot in a vector of values, so that tolerances, worst case and samples can
// change any of them and evaluate the loss again.

import type { Path } from '../../../model/issue'
import { coreValue, type Quantity } from '../../../model/quantity/quantity'
import { RULES, type RuleName } from '../../../model/quantity/quantityRules'
import { NO_SPREAD, spreadOf, uncertaintySpread } from '../../../model/quantity/spread'
import type { Dimension } from '../../../model/quantity/units'
import { LIMITS } from '../../../model/words/limits'
import { requireInRange } from '../../../numerics/inputError'
import type { Variable } from '../../results/evaluation'

export type Values = Float64Array
export interface Reader {
  (values: Values): number
  /** Places of the vector that it may read; absent where that is not known. */
  readonly reads?: readonly number[]
  /** The slot whose value it is, where it is nothing more. */
  readonly slot?: number
  /** The same for many vectors at once: `fill` writes the first `count` results from the columns of the readers that it is made of. */
  readonly inColumns?: {
    readonly of: readonly Reader[]
    readonly fill: (parts: readonly Float64Array[], count: number, out: Float64Array) => void
  }
}

export interface ReaderTable {
  readonly variables: readonly Variable[]
  /**
   * Registers a quantity once per path and returns the function that reads it, in the core's unit. Throws InputError for a
   * tolerance below 0, which no file that was checked has.
   */
  readonly quantity: (quantity: Quantity, rule: RuleName, label: string, path: Path) => Reader
  /** A separate slot without a tolerance, 0 until it is written; returns its number. */
  readonly addSlot: (rule: RuleName, label: string, path: Path) => number
  /** Does the work, and adds every slot of the vector that it asks for to `reads`. */
  readonly noting: <T>(reads: Set<number>, work: () => T) => T
}

/** Last step of the path of a deviation that a measurement leaves open. */
export const UNCERTAINTY = 'uncertainty'

/** Whether a variable is what a measurement leaves open: no order and no process can tighten it. */
export const isUncertainty = ({ path }: Variable): boolean => path.at(-1) === UNCERTAINTY

/** Rules that let a deviation go either side of 0, by dimension. Only these can be measured. */
const DEVIATION_RULES: Readonly<Partial<Record<Dimension, RuleName>>> = { length: 'offset', angle: 'tilt' }

export function readerAt(slot: number): Reader {
  return Object.assign((values: Values) => values[slot] ?? Number.NaN, { slot, reads: [slot] })
}

/** Every slot that the readers may read; null where that is not known of one of them. */
export function slotsOf(
  readers: readonly { readonly reads?: readonly number[] | null }[],
): readonly number[] | null {
  const slots = new Set<number>()
  for (const { reads } of readers) {
    if (reads === undefined || reads === null) return null
    for (const slot of reads) slots.add(slot)
  }
  return [...slots]
}

/** A new function made of other readers as a reader, which reads what they read. */
export function readerOf(parts: readonly Reader[], read: (values: Values) => number): Reader {
  const reads = slotsOf(parts)
  return reads === null ? read : Object.assign(read, { reads })
}

export function readerTable(): ReaderTable {
  const variables: Variable[] = []
  const readers = new Map<string, { readonly reader: Reader; readonly slots: readonly number[] }>()
  let noted: Set<number> | null = null
  const note = (slots: readonly number[]) => {
    for (const slot of slots) noted?.add(slot)
  }
  return {
    variables,
    quantity: (quantity, rule, label, path) => {
      const key = path.join('/')
      const known = readers.get(key)
      if (known !== undefined) {
        note(known.slots)
        return known.reader
      }
      requireInRange('plusMinus', quantity.tolerance?.plusMinus ?? 0, 0, LIMITS.plusMinus)
      const nominal = coreValue(quantity, rule)
      const { unit } = quantity
      variables.push({ path, label, rule, nominal, unit, spread: spreadOf(quantity, rule) })
      const slots = [variables.length - 1]
      const own = readerAt(variables.length - 1)
      const measured = uncertaintySpread(quantity, rule)
      const deviationRule = DEVIATION_RULES[RULES[rule].dimension]
      let reader = own
      if (measured.halfWidth > 0 && deviationRule !== undefined) {
        variables.push({
          path: [...path, UNCERTAINTY],
          label: `${label}, measurement uncertainty`,
          rule: deviationRule,
          nominal: 0,
          unit,
          spread: measured,
        })
        slots.push(variables.length - 1)
        const deviation = readerAt(variables.length - 1)
        reader = readerOf([own, deviation], (values) => own(values) + deviation(values))
      }
      readers.set(key, { reader, slots })
      note(slots)
      return reader
    },
    addSlot: (rule, label, path) => {
      variables.push({ path, label, rule, nominal: 0, unit: RULES[rule].unit, spread: NO_SPREAD })
      note([variables.length - 1])
      return variables.length - 1
    },
    noting: (reads, work) => {
      noted = reads
      try {
        return work()
      } finally {
        noted = null
      }
    },
  }
}

export function constantReader(value: number): Reader {
  return Object.assign(() => value, { reads: [] })
}
