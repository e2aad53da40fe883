// The colours of a map on a canvas. Cells blend into each other; the axes may end inside of cells.

import type { Axis, Chart, MapSeries } from '../../figures/chart'
import { mapPixels } from '../../figures/render/scales'

export function mapOf({ panes }: Chart): MapSeries | undefined {
  return panes.flatMap(({ series }) => series).find((each): each is MapSeries => each.kind === 'map')
}

/** Start and length in cells of what an axis shows, counted from the least value. */
function cellsShown({ from, to }: Axis, positions: Float64Array): readonly [start: number, length: number] {
  const first = Math.min(positions[0] ?? 0, positions.at(-1) ?? 0)
  const step =
    Math.abs((positions.at(-1) ?? 1) - (positions[0] ?? 0)) / Math.max(1, positions.length - 1) || 1
  return [(Math.min(from, to) - first) / step + 0.5, Math.abs(to - from) / step]
}

/** Kept from frame to frame: a new canvas each time would cost more than its colours. */
let cells: OffscreenCanvas | undefined

/** The cells of a map, a pixel each, the lowest row at the bottom. */
function cellsOf(map: MapSeries): OffscreenCanvas {
  const [columns, rows] = [map.x.length, map.y.length]
  if (cells?.width !== columns || cells.height !== rows) cells = new OffscreenCanvas(columns, rows)
  cells.getContext('2d')?.putImageData(new ImageData(mapPixels(map), columns, rows), 0, 0)
  return cells
}

export function paintMap(canvas: HTMLCanvasElement, map: MapSeries, x: Axis, y: Axis): void {
  const context = canvas.getContext('2d')
  if (context === null) return
  const [left, across] = cellsShown(x, map.x)
  const [low, up] = cellsShown(y, map.y)
  const { width, height } = canvas
  context.clearRect(0, 0, width, height)
  context.save()
  if (y.from > y.to) {
    context.translate(0, height)
    context.scale(1, -1)
  }
  context.drawImage(cellsOf(map), left, map.y.length - low - up, across, up, 0, 0, width, height)
  context.restore()
}

const SAVED_PX = 640

/** The map as the address of a picture, for files. */
export function mapPicture(chart: Chart): string {
  const map = mapOf(chart)
  const pane = chart.panes[0]
  if (map === undefined || pane === undefined) return ''
  const canvas = document.createElement('canvas')
  canvas.width = SAVED_PX
  canvas.height = SAVED_PX
  paintMap(canvas, map, chart.x, pane.y)
  return canvas.toDataURL()
}
