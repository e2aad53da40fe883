// Columns x and y of a table that fill a regular grid once, in any order of the rows.

import { InputError } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import type { RegularGrid } from '../../numerics/regularGrid'
import { unitRule } from '../reading/units'

const LEAST_POINTS = 4
const GREATEST_POINTS = 2048
/** Rows whose places differ by less than this share of a step are treated as one line of the grid. */
const SAME_LINE = 0.05
const EVEN = 0.02

export interface RasterColumn {
  readonly values: Float64Array
  readonly unit: string | null
}

interface Raster extends RegularGrid {
  /** Of each row of the table, row-major from the lower left. */
  readonly indices: Int32Array
}

/** Factor to the core unit of a dimension; 1, with a note, where the heading has no unit. */
export function headingFactor(
  name: string,
  unit: string | null,
  dimension: 'length' | 'angle',
  notes: string[],
): number {
  if (unit === null) {
    notes.push(`${name} has no unit; taken as ${dimension === 'length' ? 'µm' : 'rad'}.`)
    return 1
  }
  const rule = unitRule(unit)
  if (rule?.dimension !== dimension) throw new InputError(`unit of ${name}`, unit, `a unit of ${dimension}`)
  return rule.factor
}

/** Places along one axis: the distinct values in ascending order, evenly spaced. */
function axisOf(
  name: 'x' | 'y',
  coordinates: Float64Array,
): { readonly from: number; readonly step: number; readonly count: number } {
  const sorted = Float64Array.from(coordinates).sort()
  const [from, to] = [sorted[0] ?? 0, sorted.at(-1) ?? 0]
  const distinct: number[] = [from]
  const widest = (to - from) / (LEAST_POINTS - 1)
  for (const coordinate of sorted) {
    const last = distinct.at(-1) ?? from
    const finest = distinct.length > 1 ? (last - from) / (distinct.length - 1) : widest / GREATEST_POINTS
    if (coordinate - last > SAME_LINE * finest) distinct.push(coordinate)
  }
  const count = distinct.length
  if (count < LEAST_POINTS || count > GREATEST_POINTS) {
    throw new InputError(
      `number of distinct positions along ${name}`,
      count,
      `${LEAST_POINTS} to ${GREATEST_POINTS}`,
    )
  }
  const step = (to - from) / (count - 1)
  distinct.forEach((coordinate, at) => {
    const off = Math.abs(coordinate - from - at * step)
    if (off > EVEN * step) {
      throw new InputError(
        `${name} of grid line ${at + 1}`,
        coordinate,
        `on a regular grid with a step of ${significantText(step, 4)} µm`,
      )
    }
  })
  return { from, step, count }
}

/**
 * The grid that the rows fill. Throws InputError that names the axis, the row or the place that is wrong; `notes`
 * receives the assumptions.
 */
export function rasterOf(x: RasterColumn, y: RasterColumn, rows: number, notes: string[]): Raster {
  const alongX = headingFactor('x', x.unit, 'length', notes)
  const alongY = headingFactor('y', y.unit, 'length', notes)
  const axisX = axisOf(
    'x',
    x.values.map((value) => value * alongX),
  )
  const axisY = axisOf(
    'y',
    y.values.map((value) => value * alongY),
  )
  const [nx, ny] = [axisX.count, axisY.count]
  if (rows !== nx * ny) {
    throw new InputError('number of rows', rows, `${nx * ny} (${nx} positions along x times ${ny} along y)`)
  }
  const filled = new Uint8Array(nx * ny)
  const indices = Int32Array.from({ length: rows }, (_, row) => {
    const ix = Math.round(((x.values[row] as number) * alongX - axisX.from) / axisX.step)
    const iy = Math.round(((y.values[row] as number) * alongY - axisY.from) / axisY.step)
    const at = iy * nx + ix
    if (filled[at] === 1) {
      throw new InputError(
        `row ${row + 1}`,
        `a second value at (${x.values[row]}, ${y.values[row]})`,
        'a separate position',
      )
    }
    filled[at] = 1
    return at
  })
  return { nx, ny, dxUm: axisX.step, dyUm: axisY.step, x0Um: axisX.from, y0Um: axisY.from, indices }
}
