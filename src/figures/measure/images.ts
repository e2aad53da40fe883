// A camera image, a raster or a residual map as a picture to scale, with the ellipse that was found in it.

import { extent } from '../axes'
import { type Axis, type Chart, chart, type LineSeries, type MapSeries, type Series } from '../chart'
import type { Figure } from '../figure'

/** Row-major values on a square grid; `xUm` and `yUm` are the place of the first one. */
interface PictureMap {
  readonly width: number
  readonly height: number
  readonly xUm: number
  readonly yUm: number
  readonly stepUm: number
  readonly values: Float64Array
}

/** An ellipse drawn over a picture: full widths, azimuth from x towards y. */
interface PictureEllipse {
  readonly centreX: number
  readonly centreY: number
  readonly major: number
  readonly minor: number
  readonly azimuthRad: number
}

interface PictureText {
  readonly unit: string
  readonly value: string
  readonly sentence: string
  /** True where values lie on both sides of zero: the scale is then even about it. */
  readonly signed: boolean
}

const OUTLINE_POINTS = 121

function scaleOf(values: ArrayLike<number>, signed: boolean): Pick<MapSeries, 'scale' | 'from' | 'to'> {
  const [least, most] = extent(values)
  if (!signed) return { scale: 'light', from: least, to: most > least ? most : least + 1 }
  const reach = Math.max(Math.abs(least), Math.abs(most), 1e-300)
  return { scale: 'signed', from: -reach, to: reach }
}

function ellipseSeries(
  { centreX, centreY, major, minor, azimuthRad }: PictureEllipse,
  signed: boolean,
): LineSeries {
  const turns = Array.from({ length: OUTLINE_POINTS }, (_, i) => (i * 2 * Math.PI) / (OUTLINE_POINTS - 1))
  const [cos, sin, a, b] = [Math.cos(azimuthRad), Math.sin(azimuthRad), major / 2, minor / 2]
  return {
    kind: 'line',
    name: '',
    unread: true,
    x: turns.map((t) => centreX + cos * a * Math.cos(t) - sin * b * Math.sin(t)),
    y: turns.map((t) => centreY + sin * a * Math.cos(t) + cos * b * Math.sin(t)),
    tone: signed ? 'core' : 'over',
    weight: 'normal',
    dash: 'dash',
  }
}

/** From the outer edge of the first cell to that of the last. */
function cellAxis(title: string, unit: string, values: Float64Array, isDown: boolean): Axis {
  const half = Math.abs((values[1] ?? 1) - (values[0] ?? 0)) / 2
  const [least, most] = extent(values)
  const [from, to] = isDown ? [most + half, least - half] : [least - half, most + half]
  return { title, unit, from, to, digits: 2 }
}

function pictureOf(
  map: Pick<MapSeries, 'x' | 'y' | 'rows'>,
  scale: Pick<MapSeries, 'scale' | 'from' | 'to'>,
  ellipse: PictureEllipse | null,
  text: PictureText,
  isDown: boolean,
): Chart {
  const over: readonly Series[] = ellipse === null ? [] : [ellipseSeries(ellipse, text.signed)]
  return chart(
    cellAxis('x', text.unit, map.x, false),
    cellAxis('y', text.unit, map.y, isDown),
    [{ kind: 'map', ...map, ...scale, title: text.value, unit: '', digits: 4 }, ...over],
    { equalAxes: true },
  )
}

const columnsOf = (text: PictureText) => [
  { label: 'x', unit: text.unit },
  { label: 'y', unit: text.unit },
  { label: text.value },
]

/** A picture or its residual. Rows of an image run downwards. */
export function imageFigure(
  map: PictureMap,
  ellipse: PictureEllipse | null,
  text: PictureText,
): Figure<Chart> {
  const x = Float64Array.from({ length: map.width }, (_, i) => map.xUm + i * map.stepUm)
  const y = Float64Array.from({ length: map.height }, (_, j) => map.yUm + j * map.stepUm)
  const rows = Array.from({ length: map.height }, (_, j) =>
    map.values.subarray(j * map.width, (j + 1) * map.width),
  )
  return {
    id: 'image',
    sentence: text.sentence,
    picture: pictureOf({ x, y, rows }, scaleOf(map.values, text.signed), ellipse, text, true),
    table: {
      columns: columnsOf(text),
      rows: Array.from(map.values, (value, i) => [
        x[i % map.width] ?? 0,
        y[Math.floor(i / map.width)] ?? 0,
        value,
      ]),
    },
  }
}

interface PicturePoints {
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
  readonly value: ArrayLike<number>
}

const sortedIndices = (values: ArrayLike<number>) => Float64Array.from(new Set(Array.from(values))).sort()

/** A raster: values at single places, drawn as the cells around them; places without a value stay empty. y runs up. */
export function rasterFigure(
  points: PicturePoints,
  ellipse: PictureEllipse | null,
  text: PictureText,
): Figure<Chart> {
  const [x, y] = [sortedIndices(points.x), sortedIndices(points.y)]
  const [columns, lines] = [x, y].map((indices) => new Map(Array.from(indices, (index, i) => [index, i])))
  const rows = Array.from(y, () => new Float64Array(x.length).fill(Number.NaN))
  for (let i = 0; i < points.x.length; i++) {
    const row = rows[lines?.get(points.y[i] ?? 0) ?? 0]
    if (row !== undefined) row[columns?.get(points.x[i] ?? 0) ?? 0] = points.value[i] ?? 0
  }
  return {
    id: 'raster',
    sentence: text.sentence,
    picture: pictureOf({ x, y, rows }, scaleOf(points.value, text.signed), ellipse, text, false),
    table: {
      columns: columnsOf(text),
      rows: Array.from(points.x, (at, i) => [at, points.y[i] ?? 0, points.value[i] ?? 0]),
    },
  }
}
