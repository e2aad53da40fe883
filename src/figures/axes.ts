// Ranges of axes: they hold what matters, and a loss axis never shows less than 0.1 dB.

import type { Axis } from './chart'

/** A loss axis that showed less would make rounding look like physics. */
export const LEAST_LOSS_SPAN_DB = 0.1
const ROOM = 0.06

/** Smallest and largest of the finite values; 0 and 1 without any. */
export function extent(...lists: readonly ArrayLike<number | null>[]): readonly [number, number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const values of lists) {
    for (let i = 0; i < values.length; i++) {
      const value = values[i]
      if (value === null || value === undefined || !Number.isFinite(value)) continue
      least = Math.min(least, value)
      most = Math.max(most, value)
    }
  }
  return least <= most ? [least, most] : [0, 1]
}

/** An axis about values, with a small margin on both sides; at least `leastSpan` long. */
export function spanning(
  title: string,
  unit: string,
  values: readonly ArrayLike<number | null>[],
  { leastSpan = 0, digits = 2, room = ROOM }: { leastSpan?: number; digits?: number; room?: number } = {},
): Axis {
  const [least, most] = extent(...values)
  const span = Math.max(most - least, leastSpan, 1e-9)
  const middle = (least + most) / 2
  const half = span * (0.5 + room)
  return { title, unit, from: middle - half, to: middle + half, digits }
}

/** A loss axis about values, dB; it starts at 0 where the losses themselves do. */
export function lossAxis(title: string, ...values: readonly ArrayLike<number | null>[]): Axis {
  const axis = spanning(title, 'dB', values, { leastSpan: LEAST_LOSS_SPAN_DB })
  const [least] = extent(...values)
  if (least < 0 || axis.from >= 0) return axis
  return { ...axis, from: 0, to: Math.max(axis.to, LEAST_LOSS_SPAN_DB) }
}

/** An axis over a coordinate, end to end. */
export function along(title: string, unit: string, values: ArrayLike<number>, digits = 2): Axis {
  const [from, to] = extent(values)
  return { title, unit, from, to: to > from ? to : from + 1, digits }
}
