// A scan prepared for evaluation: checked, sorted, repeated positions averaged, very long scans thinned.

import { InputError } from '../../numerics/inputError'
import { requireReading, requireSignal } from './requireReading'
import { saturatedLength } from './saturation'

export interface OrderedScan {
  /** Strictly ascending. */
  readonly at: Float64Array
  readonly power: Float64Array
  /** The readings in the order of the file, for what changes with time; of a very long scan, those above. */
  readonly taken: { readonly at: Float64Array; readonly power: Float64Array }
  readonly warnings: readonly string[]
}

/** Scans longer than this are averaged in groups of neighbours before they are fitted. */
export const LONGEST_FITTED_SCAN = 4096
const FEWEST_POINTS = 8

/**
 * `field` names the coordinate in errors, in the singular ("angle"). InputError for unequal lengths, fewer than 8 different
 * positions, values that are not finite, or powers that are nowhere above zero or all the same.
 */
export function orderScan(field: string, at: ArrayLike<number>, power: ArrayLike<number>): OrderedScan {
  if (at.length !== power.length)
    throw new InputError('number of powers', power.length, `${at.length}, one per ${field}`)
  let highest = -Infinity
  let lowest = Infinity
  for (let i = 0; i < at.length; i++) {
    requireReading(field, at, i, 'um')
    const p = requireReading('power', power, i, 'relative')
    if (p > highest) highest = p
    if (p < lowest) lowest = p
  }
  if (at.length > 0) requireSignal(highest)
  if (at.length > 1 && highest === lowest)
    throw new InputError('power', `${highest} everywhere`, 'different from point to point')
  const merged = merge(at, power)
  if (merged.at.length < FEWEST_POINTS) {
    throw new InputError(`number of different ${field}s`, merged.at.length, `${FEWEST_POINTS} or more`)
  }
  const warnings: string[] = []
  if (merged.repeats > 0) warnings.push(`Readings at repeated positions were averaged (${merged.repeats}).`)
  if (saturatedLength(merged.power) > 0) {
    warnings.push(
      'The highest value is repeated over several points: the detector may be saturated, and the width overestimated.',
    )
  }
  const group = Math.ceil(merged.at.length / LONGEST_FITTED_SCAN)
  if (group === 1) {
    const taken =
      at.length > LONGEST_FITTED_SCAN
        ? merged
        : { at: Float64Array.from(at), power: Float64Array.from(power) }
    return { at: merged.at, power: merged.power, taken, warnings }
  }
  warnings.push(`${merged.at.length} points were averaged in groups of ${group} for the fit.`)
  const averagedScan = thin(merged.at, merged.power, group)
  return { ...averagedScan, taken: averagedScan, warnings }
}

function merge(at: ArrayLike<number>, power: ArrayLike<number>) {
  const order = Uint32Array.from({ length: at.length }, (_, i) => i)
  order.sort((a, b) => (at[a] as number) - (at[b] as number))
  const x = new Float64Array(at.length)
  const p = new Float64Array(at.length)
  let count = 0
  let repeats = 0
  let sharing = 1
  for (const i of order) {
    const here = at[i] as number
    if (count > 0 && here === x[count - 1]) {
      sharing++
      repeats++
      p[count - 1] = (p[count - 1] ?? 0) + ((power[i] as number) - (p[count - 1] ?? 0)) / sharing
      continue
    }
    x[count] = here
    p[count] = power[i] as number
    sharing = 1
    count++
  }
  return { at: x.slice(0, count), power: p.slice(0, count), repeats }
}

function thin(at: Float64Array, power: Float64Array, group: number) {
  const count = Math.ceil(at.length / group)
  const x = new Float64Array(count)
  const p = new Float64Array(count)
  for (let g = 0; g < count; g++) {
    const from = g * group
    const to = Math.min(from + group, at.length)
    for (let i = from; i < to; i++) {
      x[g] = (x[g] as number) + (at[i] as number) / (to - from)
      p[g] = (p[g] as number) + (power[i] as number) / (to - from)
    }
  }
  return { at: x, power: p }
}
