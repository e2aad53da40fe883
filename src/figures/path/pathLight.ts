// The light along the Path strip: the 1/e² envelope of the mode, filled as bright as it is: brightest on the axis, paler
// with the power that is lost.

import { roundedTo } from '../../numerics/numberText'
import { type Child, element, type Markup } from '../render/markup'
import type { Palette } from '../render/palette'
import { pathOf, px } from '../render/svgShapes'
import type { StripStation } from './pathStops'
import type { PlacedStop } from './stripLayout'

/** Filled areas within each other, as parts of the envelope; together they fall off as a Gaussian does. */
const SHELLS = [1, 0.86, 0.73, 0.6, 0.48, 0.36, 0.24, 0.12] as const
const SHELL_OPACITY = 0.114
/** Where both axes are nearer to each other than this, one line says it. */
const SAME_PX = 0.75

interface LightLook {
  readonly palette: Palette
  readonly half: (radiusUm: number) => number
  readonly middlePx: number
}

type Point = readonly [number, number]

/** The envelope at a station of a stop, px. */
interface Outline {
  readonly xPx: number
  readonly centrePx: number
  readonly radiusPx: number
}

function outline(
  { stop, leftPx, rightPx }: PlacedStop,
  { half, middlePx }: LightLook,
  axis: 'x' | 'y',
): readonly Outline[] {
  return stop.stations.map((station: StripStation) => {
    const radiusPx = half(axis === 'x' ? station.radiusXUm : station.radiusYUm)
    const shift = (axis === 'x' ? station.shiftX : station.shiftY) ?? 0
    return { xPx: leftPx + station.at * (rightPx - leftPx), centrePx: middlePx - shift * radiusPx, radiusPx }
  })
}

/** Upper (1) or lower (-1) edge of a part of the envelope. */
function edge(stations: readonly Outline[], part: number, side: 1 | -1): readonly Point[] {
  return stations.map(({ xPx, centrePx, radiusPx }): Point => [xPx, centrePx - side * part * radiusPx])
}

/** A part of the envelope as a closed path: written at once, since a drag draws a dozen of them in every frame. */
function shellPath(stations: readonly Outline[], part: number): string {
  let path = ''
  for (const { xPx, centrePx, radiusPx } of stations) {
    path += `${path === '' ? 'M' : 'L'}${px(xPx)} ${px(centrePx - part * radiusPx)}`
  }
  for (let at = stations.length - 1; at >= 0; at--) {
    const { xPx, centrePx, radiusPx } = stations[at] as Outline
    path += `L${px(xPx)} ${px(centrePx + part * radiusPx)}`
  }
  return `${path}z`
}

/** Whether the mode is seen to differ between the axes somewhere along a stop. */
function differs({ stop }: PlacedStop, { half }: LightLook): boolean {
  return stop.stations.some(
    ({ radiusXUm, radiusYUm, shiftX = 0, shiftY = 0 }) =>
      Math.abs(half(radiusXUm) - half(radiusYUm)) > SAME_PX ||
      Math.abs(shiftX * half(radiusXUm) - shiftY * half(radiusYUm)) > SAME_PX,
  )
}

/** Power left in the middle of each stop. */
function powers(placed: readonly PlacedStop[]): readonly number[] {
  let beforeDb = 0
  return placed.map(({ stop }) => {
    const middleDb = beforeDb + stop.lossDb / 2
    beforeDb += stop.lossDb
    return 10 ** (-Math.max(0, middleDb) / 10)
  })
}

/** The two edges of the envelope as lines. */
function edgeLines(
  placedStop: PlacedStop,
  look: LightLook,
  axis: 'x' | 'y',
  stroke: Markup['attributes'],
): Child {
  const stations = outline(placedStop, look, axis)
  const d = pathOf([...edge(stations, 1, 1), null, ...edge(stations, 1, -1)])
  return element('path', { fill: 'none', stroke: look.palette.beamEdge, ...stroke, d })
}

export function light(placed: readonly PlacedStop[], look: LightLook): Child {
  const { palette } = look
  const left = powers(placed)
  return [
    placed.map((placedStop, i) => {
      const stations = outline(placedStop, look, 'x')
      return SHELLS.map((part) =>
        element('path', {
          fill: palette.beamEdge,
          // The eye sees differences of small powers better: the root.
          'fill-opacity': roundedTo(SHELL_OPACITY * Math.sqrt(left[i] ?? 1), 3),
          d: shellPath(stations, part),
        }),
      )
    }),
    placed.map((placedStop) =>
      edgeLines(placedStop, look, 'x', { 'stroke-width': 1.5, 'stroke-linejoin': 'round' }),
    ),
    placed
      .filter((placedStop) => differs(placedStop, look))
      .map((placedStop) =>
        edgeLines(placedStop, look, 'y', { 'stroke-width': 1, 'stroke-dasharray': '3 3' }),
      ),
  ]
}
