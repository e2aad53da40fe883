// Labels of contour lines, placed where each line crosses a diagonal from the least loss to a corner of the map;
// neighbours take different corners, so that they keep apart.

import type { LossMap } from '../../analysis/tolerance/toleranceMap'

export interface ContourLabel {
  readonly x: number
  readonly y: number
  readonly levelDb: number
}

interface Cell {
  readonly column: number
  readonly row: number
}

function leastCell(map: LossMap): Cell {
  let best: Cell = { column: 0, row: 0 }
  let leastDb = Number.POSITIVE_INFINITY
  for (const [row, losses] of map.rowsDb.entries()) {
    for (const [column, loss] of losses.entries()) {
      if (loss < leastDb) {
        leastDb = loss
        best = { column, row }
      }
    }
  }
  return best
}

function cornersOf(map: LossMap): readonly Cell[] {
  const [column, row] = [map.x.length - 1, map.y.length - 1]
  return [
    { column, row },
    { column: 0, row },
    { column: 0, row: 0 },
    { column, row: 0 },
  ]
}

/** The first cell on the way from one cell to another whose loss reaches the level, or null. */
function crossing(map: LossMap, from: Cell, to: Cell, levelDb: number): Cell | null {
  const steps = Math.max(Math.abs(to.column - from.column), Math.abs(to.row - from.row))
  for (let step = 1; step <= steps; step++) {
    const column = Math.round(from.column + ((to.column - from.column) * step) / steps)
    const row = Math.round(from.row + ((to.row - from.row) * step) / steps)
    if ((map.rowsDb[row]?.[column] ?? 0) >= levelDb) return { column, row }
  }
  return null
}

/** Cells at the rim where a label would lie across the axes. */
const RIM = 2

function isInside(map: LossMap, { column, row }: Cell): boolean {
  const within = (at: number, count: number) => at >= RIM && at < count - RIM
  return within(column, map.x.length) && within(row, map.y.length)
}

/**
 * One label a level, on the first corner's diagonal that crosses it clear of the rim; levels that are crossed at the rim
 * only have it there, and those that no diagonal crosses have none.
 */
export function contourLabels(map: LossMap, levelsDb: readonly number[]): readonly ContourLabel[] {
  const from = leastCell(map)
  const corners = cornersOf(map)
  return levelsDb.flatMap((levelDb, i) => {
    const crossings = corners.flatMap((_, turn) => {
      const corner = corners[(i + turn) % corners.length]
      const cell = corner === undefined ? null : crossing(map, from, corner, levelDb)
      return cell === null ? [] : [cell]
    })
    const cell = crossings.find((each) => isInside(map, each)) ?? crossings[0]
    return cell === undefined ? [] : [{ x: map.x[cell.column] ?? 0, y: map.y[cell.row] ?? 0, levelDb }]
  })
}
