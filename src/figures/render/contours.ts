// Lines of equal value on a grid, by marching squares: every cell joins the sides that a line crosses, and pieces that share a
// side are one line.
// Source of the method: W. E. Lorensen and H. E. Cline, Comput. Graph. 21 (1987) 163, in two dimensions.

import type { GridValues } from '../chart'

/** The points of a line one after the other: x1, y1, x2, y2, ...; a closed line ends where it begins. */
export type ContourLine = readonly number[]

/**
 * The lines of each level. None where the grid stays on one side of it, or is empty. Four crossings of one cell are a saddle;
 * joining neighbours gives one of its two readings.
 */
export function contourLines(
  { x, y, rows }: GridValues,
  levels: readonly number[],
): readonly (readonly ContourLine[])[] {
  const columns = x.length
  // Each point of the grid, counted row by row, has two sides: 2 * point to its right, 2 * point + 1 above it. A side is crossed
  // by one line, which goes on to another side of each of its two cells.
  const links = new Int32Array(4 * columns * rows.length).fill(-1)
  const link = (a: number, b: number) => {
    links[(links[2 * a] as number) < 0 ? 2 * a : 2 * a + 1] = b
    links[(links[2 * b] as number) < 0 ? 2 * b : 2 * b + 1] = a
  }

  /** Links the crossed sides of every cell, and lists them. */
  const crossedAt = (level: number): readonly number[] => {
    const crossed: number[] = []
    for (let j = 0; j + 1 < rows.length; j++) {
      const low = rows[j] as Float64Array
      const high = rows[j + 1] as Float64Array
      // Above the level at the four corners, in turn around the cell; the next cell begins with the side that it shares.
      let a = (low[0] as number) - level
      let d = (high[0] as number) - level
      for (let i = 0; i + 1 < columns; i++) {
        const b = (low[i + 1] as number) - level
        const c = (high[i + 1] as number) - level
        const onOneSide = a < 0 === b < 0 && b < 0 === c < 0 && c < 0 === d < 0
        if (!onOneSide && !Number.isNaN(a + b + c + d)) {
          const from = crossed.length
          const point = columns * j + i
          if (a < 0 !== b < 0) crossed.push(2 * point)
          if (b < 0 !== c < 0) crossed.push(2 * (point + 1) + 1)
          if (c < 0 !== d < 0) crossed.push(2 * (point + columns))
          if (d < 0 !== a < 0) crossed.push(2 * point + 1)
          for (let k = from; k < crossed.length; k += 2) link(crossed[k] as number, crossed[k + 1] as number)
        }
        a = b
        d = c
      }
    }
    return crossed
  }

  const addPoint = (line: number[], side: number, level: number) => {
    const point = side >> 1
    const j = Math.floor(point / columns)
    const i = point - j * columns
    const up = side % 2
    const right = 1 - up
    const here = (rows[j]?.[i] as number) - level
    const there = (rows[j + up]?.[i + right] as number) - level
    const part = here / (here - there)
    const x0 = x[i] as number
    const y0 = y[j] as number
    line.push(x0 + ((x[i + right] as number) - x0) * part, y0 + ((y[j + up] as number) - y0) * part)
  }

  /** Follows a line from a side and takes it out of the links. */
  const follow = (start: number, level: number): ContourLine => {
    const line: number[] = []
    for (let side = start, before = -1; ; ) {
      addPoint(line, side, level)
      const one = links[2 * side] as number
      const next = one === before ? (links[2 * side + 1] as number) : one
      links[2 * side] = links[2 * side + 1] = -1
      if (next === start) addPoint(line, start, level)
      if (next < 0 || next === start) return line
      before = side
      side = next
    }
  }

  return levels.map((level) => {
    const crossed = crossedAt(level)
    const lines: ContourLine[] = []
    // Lines that end at the rim from one of their ends; then those that close.
    for (const isOpen of [true, false]) {
      for (const side of crossed) {
        const isLinked = (links[2 * side] as number) >= 0
        if (isLinked && (links[2 * side + 1] as number) < 0 === isOpen) lines.push(follow(side, level))
      }
    }
    return lines
  })
}
