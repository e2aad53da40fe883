// Alignment tolerances of all axes as plain numbers, for handing on between a worker and the page: of each axis its position, its slope and
// the distances of its marks to either side, NaN where the axis never gets there.

import { MISALIGNMENT_AXES } from '../../../optics/index'
import { type AxisWindow, WINDOW_STEPS_DB } from '../../tolerance/toleranceCurve'

const NUMBERS_AN_AXIS = 2 + 2 * WINDOW_STEPS_DB.length

export const windowNumbers = (windows: readonly AxisWindow[]): readonly number[] =>
  windows.flatMap(({ at, slopeDbPerUnit, marks }) => [
    at,
    slopeDbPerUnit,
    ...marks.flatMap(({ below, above }) => [below ?? Number.NaN, above ?? Number.NaN]),
  ])

/** The windows again, in the order of MISALIGNMENT_AXES. */
export function windowsFrom(numbers: readonly number[]): readonly AxisWindow[] {
  const distance = (value: number | undefined) => (value === undefined || Number.isNaN(value) ? null : value)
  return MISALIGNMENT_AXES.map((axis, i) => {
    const [at = 0, slopeDbPerUnit = 0, ...sides] = numbers.slice(
      i * NUMBERS_AN_AXIS,
      (i + 1) * NUMBERS_AN_AXIS,
    )
    const marks = WINDOW_STEPS_DB.map((excessDb, k) => ({
      excessDb,
      below: distance(sides[2 * k]),
      above: distance(sides[2 * k + 1]),
    }))
    return { axis, at, slopeDbPerUnit, marks }
  })
}
