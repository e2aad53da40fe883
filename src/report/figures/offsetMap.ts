// Loss over both offsets on the sheet: contours are decibels above the least loss.

import type { JointView } from '../../analysis/results/evaluation'
import { toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { coreValue } from '../../model/quantity/quantity'
import type { Requirements } from '../../model/schema/requirements'
import type { FigureBlock } from '../document/blocks'
import { lossCell } from '../document/cells'
import { AXIS_TEXT } from './axisText'
import { figure, plotted } from './figure'
import { lossMapDrawing } from './lossMap'

const POINTS = 41
const ADDED_DB = [0.5, 1, 2, 3, 4, 5, 6] as const
const HEIGHT_PX = 420

export function offsetMap(
  { elementId, joint }: JointView,
  name: string,
  station: Requirements['station'],
): FigureBlock {
  const map = toleranceMap(joint, 'offsetXUm', 'offsetYUm', POINTS)
  const half = coreValue(station.lateral, 'lateralAccuracy')
  const drawing = lossMapDrawing({
    map,
    x: AXIS_TEXT.offsetXUm,
    y: AXIS_TEXT.offsetYUm,
    box: { halfX: half, halfY: half },
    levels: ADDED_DB.map((addedDb) => ({ db: map.leastDb + addedDb, words: `+${addedDb}` })),
    heightPx: HEIGHT_PX,
  })
  return figure(
    `map-${elementId}`,
    `Loss of ${name} over both offsets: least ${lossCell(map.leastDb).text} dB, at the working point ${lossCell(map.hereDb).text} dB. Lines are dB above the least; the dashed box is what the station holds.`,
    drawing,
    [
      { label: 'Offset x', unit: 'µm' },
      { label: 'Offset y', unit: 'µm' },
      { label: 'Loss', unit: 'dB' },
    ],
    map.rowsDb.flatMap((row, j) =>
      Array.from(row, (loss, i) => [plotted(map.x[i] ?? 0), plotted(map.y[j] ?? 0), plotted(loss)]),
    ),
  )
}
