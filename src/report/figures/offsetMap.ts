// Loss over both offsets as contours, with what the station holds.

import type { JointView } from '../../analysis/evaluation'
import { toleranceMap } from '../../analysis/toleranceMap'
import { coreValue } from '../../model/quantity'
import type { Requirements } from '../../model/requirements'
import type { FigureBlock } from '../document/blocks'
import { lossCell } from '../document/cells'
import { element, type Markup } from '../document/markup'
import { bar, chart, cross, type Places } from './chart'
import { contourPieces, type Grid, type Piece } from './contours'
import { figure, plotted } from './figure'

const POINTS = 41
const LEVELS_DB = [0.5, 1, 2, 3, 4, 5, 6] as const

function pathOf(pieces: readonly Piece[], { x, y }: Places): string {
  const point = (atX: number, atY: number) => `${x(atX).toFixed(1)} ${y(atY).toFixed(1)}`
  return pieces.map(({ x1, y1, x2, y2 }) => `M${point(x1, y1)}L${point(x2, y2)}`).join('')
}

/** A contour with its level written where it is furthest to the right. */
function contour(grid: Grid, levelDb: number, addedDb: number, places: Places): readonly Markup[] {
  const pieces = contourPieces(grid, levelDb)
  const [first] = pieces
  if (first === undefined) return []
  const end = pieces.reduce((most, piece) => (piece.x1 > most.x1 ? piece : most), first)
  return [
    element('path', { class: 'chart-contour', d: pathOf(pieces, places) }),
    element(
      'text',
      {
        class: 'chart-halo',
        x: places.x(end.x1).toFixed(1),
        y: (places.y(end.y1) + 4).toFixed(1),
        'text-anchor': 'middle',
      },
      `+${addedDb}`,
    ),
  ]
}

export function offsetMap(
  { elementId, joint }: JointView,
  name: string,
  station: Requirements['station'],
): FigureBlock {
  const map = toleranceMap(joint, 'offsetXUm', 'offsetYUm', POINTS)
  const grid: Grid = { x: map.x, y: map.y, rows: map.rowsDb }
  const half = coreValue(station.lateral, 'lateralAccuracy')
  const ends = (values: Float64Array) => ({ from: values[0] ?? 0, to: values.at(-1) ?? 1 })
  const drawing = chart(
    {
      x: { ...ends(map.x), title: 'Offset x, µm' },
      y: { ...ends(map.y), title: 'Offset y, µm' },
      heightPx: 420,
    },
    (places) => [
      ...LEVELS_DB.flatMap((addedDb) => contour(grid, map.leastDb + addedDb, addedDb, places)),
      bar(
        places.x(map.atX - half),
        places.y(map.atY - half),
        places.x(map.atX + half),
        places.y(map.atY + half),
        'chart-box',
      ),
      cross(places.x(map.atX), places.y(map.atY)),
    ],
  )
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
