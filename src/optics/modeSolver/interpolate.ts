// A field on a grid of cells, read at other positions: linear between centres, or as means over other cells.

import type { GridAxis } from './grid'

/** Linear weights: the value at positions[i] is (1 - part[i]) f[at[i]] + part[i] f[at[i] + 1]; outside, the nearest value. */
export function linearPositions(centres: Float64Array, positions: Float64Array) {
  const at = new Int32Array(positions.length)
  const part = new Float64Array(positions.length)
  const last = centres.length - 2
  let k = 0
  positions.forEach((position, i) => {
    while (k > 0 && (centres[k] as number) > position) k--
    while (k < last && (centres[k + 1] as number) <= position) k++
    const from = centres[k] as number
    at[i] = k
    part[i] = Math.min(1, Math.max(0, (position - from) / ((centres[k + 1] as number) - from)))
  })
  return { at, part }
}

/** The field on other centres, row-major there. */
export function interpolated(field: Float64Array, from: GridAxes, to: GridAxes): Float64Array {
  const nx = from.x.centres.length
  const inX = linearPositions(from.x.centres, to.x.centres)
  const inY = linearPositions(from.y.centres, to.y.centres)
  const count = to.x.centres.length
  const out = new Float64Array(count * to.y.centres.length)
  for (let iy = 0; iy < to.y.centres.length; iy++) {
    const row = (inY.at[iy] as number) * nx
    const up = inY.part[iy] as number
    for (let ix = 0; ix < count; ix++) {
      const corner = row + (inX.at[ix] as number)
      const right = inX.part[ix] as number
      const low = (1 - right) * (field[corner] as number) + right * (field[corner + 1] as number)
      const high = (1 - right) * (field[corner + nx] as number) + right * (field[corner + nx + 1] as number)
      out[iy * count + ix] = (1 - up) * low + up * high
    }
  }
  return out
}

export interface GridAxes {
  readonly x: GridAxis
  readonly y: GridAxis
}

/**
 * Means of a line of values over `count` equal cells that begin at `fromUm`, each `stepUm` wide: exact integrals of the straight lines
 * between the values, which go to zero at the ends and stay there.
 */
export function meansOverCells(
  { centres, ends }: GridAxis,
  line: Float64Array,
  fromUm: number,
  stepUm: number,
  count: number,
): Float64Array {
  const knots = Float64Array.from([ends[0], ...centres, ends[1]])
  const values = Float64Array.from([0, ...line, 0])
  const running = new Float64Array(knots.length)
  for (let k = 1; k < knots.length; k++) {
    const width = (knots[k] as number) - (knots[k - 1] as number)
    running[k] =
      (running[k - 1] as number) + (width * ((values[k] as number) + (values[k - 1] as number))) / 2
  }
  let k = 0
  const integralTo = (position: number): number => {
    if (position <= (knots[0] as number)) return 0
    if (position >= (knots.at(-1) ?? 0)) return running.at(-1) ?? 0
    while (k > 0 && (knots[k] as number) > position) k--
    while ((knots[k + 1] as number) <= position) k++
    const into = position - (knots[k] as number)
    const slope =
      ((values[k + 1] as number) - (values[k] as number)) / ((knots[k + 1] as number) - (knots[k] as number))
    return (running[k] as number) + into * ((values[k] as number) + (slope * into) / 2)
  }
  const out = new Float64Array(count)
  let before = integralTo(fromUm)
  for (let i = 0; i < count; i++) {
    const now = integralTo(fromUm + (i + 1) * stepUm)
    out[i] = (now - before) / stepUm
    before = now
  }
  return out
}
