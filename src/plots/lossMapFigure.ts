// Loss over two displacements on the page: which contours are drawn, what is said, and the numbers behind.

import type { LossMap } from '../analysis/tolerance/toleranceMap'
import type { AxisText } from '../report/figures/axisText'
import type { LossMapParts, MapBox, MapLevel } from '../report/figures/lossMap'
import type { FigureTable } from './figureTable'

const STEPS_A_DB = 2
/** Colours and contours end this far above the least loss, dB. */
export const SHOWN_ABOVE_LEAST_DB = 5

export interface LossMapFigure {
  readonly parts: Omit<LossMapParts, 'picture' | 'widthPx' | 'heightPx'>
  readonly sentence: string
  readonly table: FigureTable
}

/** A contour every half decibel, lettered at the whole ones. */
function levelsAbove(leastDb: number): readonly MapLevel[] {
  const first = Math.ceil(leastDb * STEPS_A_DB)
  const count = SHOWN_ABOVE_LEAST_DB * STEPS_A_DB
  return Array.from({ length: count }, (_, i) => {
    const db = (first + i) / STEPS_A_DB
    return Number.isInteger(db) ? { db, words: `${db} dB` } : { db }
  })
}

/** The map of a joint. `beside` is the same by Gaussians, whose contours are drawn thin over a map by fields. */
export function lossMapFigure(
  map: LossMap,
  x: AxisText,
  y: AxisText,
  box: MapBox,
  beside: LossMap | null = null,
): LossMapFigure {
  return {
    parts: { map, x, y, box, levels: levelsAbove(map.leastDb), beside },
    sentence: `Least loss on the map ${map.leastDb.toFixed(2)} dB, at the working point ${map.hereDb.toFixed(2)} dB; the dashed box is what the station holds${beside === null ? '' : '; thin dotted lines are the whole decibels by Gaussians'}.`,
    table: {
      head: [`${x.name}, ${x.unit}`, `${y.name}, ${y.unit}`, 'Loss, dB'],
      // Thousands of rows, made only when somebody looks: the map is made anew in every frame of a drag.
      get rows() {
        return map.rowsDb.flatMap((row, j) =>
          Array.from(row, (loss, i) => [(map.x[i] ?? 0) * x.perCore, (map.y[j] ?? 0) * y.perCore, loss]),
        )
      },
    },
  }
}
