// Loss over two displacements as contours, with the working point and what the station holds. The page and the sheet
// draw it alike; the page lays colours behind it.

import type { LossMap } from '../../analysis/tolerance/toleranceMap'
import { element, type Markup } from '../document/markup'
import type { AxisText } from './axisText'
import { bar, type ChartFrame, chart, cross, type Places } from './chart'
import { contourLabels } from './contourLabels'
import { contourPieces } from './contours'

/** What the station holds, core units: half the box on either side of the working point. */
export interface MapBox {
  readonly halfX: number
  readonly halfY: number
}

/** A contour: its loss, and the words on it if it has any. */
export interface MapLevel {
  readonly db: number
  readonly words?: string
}

export interface LossMapParts {
  readonly map: LossMap
  readonly x: AxisText
  readonly y: AxisText
  readonly box: MapBox
  readonly levels: readonly MapLevel[]
  /** The same by Gaussians where the map is by fields; its lettered contours are drawn thin. */
  readonly beside?: LossMap | null
  /** Address of a picture that fills the frame. */
  readonly picture?: string
  readonly widthPx?: number
  readonly heightPx: number
}

/** Half of the height of a label's figures, from its middle to its baseline. */
const LABEL_DROP_PX = 4

/** From and to on the screen; an axis that cannot go below a least value ends there. */
export function boxSide(at: number, half: number, text: AxisText): readonly [from: number, to: number] {
  const from = Math.max(text.least ?? Number.NEGATIVE_INFINITY, at - half)
  return [from * text.perCore, (at + half) * text.perCore]
}

/** The places of a chart, from core units. */
function coreToPx({ x, y }: LossMapParts, places: Places) {
  return {
    xPx: (core: number) => places.x(core * x.perCore),
    yPx: (core: number) => places.y(core * y.perCore),
  }
}

type CoreToPx = ReturnType<typeof coreToPx>

function contourPath({ x, y, rowsDb }: LossMap, db: number, { xPx, yPx }: CoreToPx): string {
  const pieces = contourPieces({ x, y, rows: rowsDb }, db)
  let path = ''
  for (let k = 0; k + 3 < pieces.length; k += 4) {
    path += `M${xPx(pieces[k] ?? 0).toFixed(1)} ${yPx(pieces[k + 1] ?? 0).toFixed(1)}`
    path += `L${xPx(pieces[k + 2] ?? 0).toFixed(1)} ${yPx(pieces[k + 3] ?? 0).toFixed(1)}`
  }
  return path
}

function contours(map: LossMap, levels: readonly MapLevel[], className: string, toPx: CoreToPx) {
  return levels.map(({ db }) => element('path', { class: className, d: contourPath(map, db, toPx) }))
}

function labels(map: LossMap, lettered: readonly MapLevel[], { xPx, yPx }: CoreToPx): readonly Markup[] {
  return contourLabels(
    map,
    lettered.map(({ db }) => db),
  ).map((label) =>
    element(
      'text',
      {
        class: 'chart-halo',
        x: xPx(label.x).toFixed(1),
        y: (yPx(label.y) + LABEL_DROP_PX).toFixed(1),
        'text-anchor': 'middle',
      },
      lettered.find(({ db }) => db === label.levelDb)?.words ?? '',
    ),
  )
}

function filling(href: string, { leftPx, topPx, rightPx, bottomPx }: Places): Markup {
  const size = { width: rightPx - leftPx, height: bottomPx - topPx }
  return element('image', { href, x: leftPx, y: topPx, ...size, preserveAspectRatio: 'none' })
}

/** The axes of a map, in the units of the screen. */
export function mapFrame({ map, x, y, widthPx, heightPx }: LossMapParts): ChartFrame {
  const ends = (values: Float64Array, { perCore, name, unit }: AxisText) => ({
    from: (values[0] ?? 0) * perCore,
    to: (values.at(-1) ?? 1) * perCore,
    title: `${name}, ${unit}`,
  })
  return { x: ends(map.x, x), y: ends(map.y, y), heightPx, ...(widthPx !== undefined && { widthPx }) }
}

/** The map as an svg element. */
export function lossMapDrawing(parts: LossMapParts): Markup {
  const { map, x, y, box, levels, beside, picture } = parts
  const lettered = levels.filter(({ words }) => words !== undefined)
  const [left, right] = boxSide(map.atX, box.halfX, x)
  const [bottom, top] = boxSide(map.atY, box.halfY, y)
  return chart(mapFrame(parts), (places) => {
    const toPx = coreToPx(parts, places)
    return [
      picture === undefined ? null : filling(picture, places),
      contours(map, levels, 'chart-contour', toPx),
      beside == null ? null : contours(beside, lettered, 'chart-contour-beside', toPx),
      bar(places.x(left), places.y(bottom), places.x(right), places.y(top), 'chart-box'),
      cross(toPx.xPx(map.atX), toPx.yPx(map.atY)),
      labels(map, lettered, toPx),
    ]
  })
}
