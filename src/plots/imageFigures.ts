// A camera image, a raster or a residual map as a picture to scale, and the cuts through it.

import { baseLayout, type Figure, type PlotTheme } from './figure'

/** Cividis, thinned and dark at zero: J. R. Nunez et al., PLoS ONE 13 (2018) e0199239. */
const CIVIDIS = [
  [0, '#00224e'],
  [0.25, '#414d6b'],
  [0.5, '#7c7b78'],
  [0.75, '#bcaf6f'],
  [1, '#fee838'],
] as const

/** Blue and orange about white, readable without red and green (own choice of steps). */
const DIVERGING = [
  [0, '#0b4f8a'],
  [0.25, '#7fb0d6'],
  [0.5, '#f7f7f5'],
  [0.75, '#eaa65f'],
  [1, '#9a4a06'],
] as const

/** Row-major values on a square grid; `x` and `y` are the place of the first one. */
export interface PictureMap {
  readonly width: number
  readonly height: number
  readonly xUm: number
  readonly yUm: number
  readonly stepUm: number
  readonly values: Float64Array
}

/** An ellipse drawn over a picture: full widths, azimuth from x towards y. */
export interface PictureEllipse {
  readonly centreX: number
  readonly centreY: number
  readonly major: number
  readonly minor: number
  readonly azimuthRad: number
}

export interface PictureText {
  readonly unit: string
  readonly value: string
  readonly sentence: string
  /** True where values lie on both sides of zero: the scale is then even about it. */
  readonly signed: boolean
}

function coloursOf(values: readonly number[] | Float64Array, signed: boolean) {
  if (!signed) return { colorscale: CIVIDIS }
  let most = 0
  for (const value of values) most = Math.max(most, Math.abs(value))
  return { colorscale: DIVERGING, zmin: -most, zmax: most }
}

function ellipseTrace({ centreX, centreY, major, minor, azimuthRad }: PictureEllipse, signed: boolean) {
  const points = Array.from({ length: 121 }, (_, i) => (i * 2 * Math.PI) / 120)
  const [cos, sin] = [Math.cos(azimuthRad), Math.sin(azimuthRad)]
  const [a, b] = [major / 2, minor / 2]
  return {
    type: 'scatter',
    mode: 'lines',
    x: points.map((t) => centreX + cos * a * Math.cos(t) - sin * b * Math.sin(t)),
    y: points.map((t) => centreY + sin * a * Math.cos(t) + cos * b * Math.sin(t)),
    line: { color: signed ? '#14171a' : '#ffffff', width: 1.5, dash: 'dash' },
    hoverinfo: 'skip',
  }
}

/** Rows of an image run downwards; a stage's y runs up. */
function pictureLayout(theme: PlotTheme, unit: string, yRuns: 'down' | 'up') {
  const layout = baseLayout(theme, `x, ${unit}`, `y, ${unit}`)
  const bare = { showgrid: false, zeroline: false, constrain: 'domain' }
  return {
    ...layout,
    xaxis: { ...(layout.xaxis as object), ...bare },
    yaxis: {
      ...(layout.yaxis as object),
      ...bare,
      scaleanchor: 'x',
      autorange: yRuns === 'down' ? 'reversed' : true,
    },
  }
}

const rowsOf = (map: PictureMap) =>
  Array.from({ length: map.height }, (_, j) =>
    Array.from(map.values.subarray(j * map.width, (j + 1) * map.width)),
  )

/** A picture or what is left of it, with the ellipse that was found in it. */
export function imageFigure(
  map: PictureMap,
  ellipse: PictureEllipse | null,
  text: PictureText,
  theme: PlotTheme,
): Figure {
  const x = Array.from({ length: map.width }, (_, i) => map.xUm + i * map.stepUm)
  const y = Array.from({ length: map.height }, (_, j) => map.yUm + j * map.stepUm)
  return {
    data: [
      {
        type: 'heatmap',
        x,
        y,
        z: rowsOf(map),
        colorbar: { title: { text: text.value }, thickness: 12 },
        hovertemplate: `x %{x:.2f}, y %{y:.2f} ${text.unit}: %{z:.4g}<extra></extra>`,
        ...coloursOf(map.values, text.signed),
      },
      ...(ellipse === null ? [] : [ellipseTrace(ellipse, text.signed)]),
    ],
    layout: pictureLayout(theme, text.unit, 'down'),
    sentence: text.sentence,
    table: {
      head: [`x, ${text.unit}`, `y, ${text.unit}`, text.value],
      rows: Array.from(map.values, (value, i) => [
        x[i % map.width] ?? 0,
        y[Math.floor(i / map.width)] ?? 0,
        value,
      ]),
    },
  }
}

export interface PicturePoints {
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
  readonly value: ArrayLike<number>
}

/** A raster: values at single places, drawn as the cells around them. */
export function rasterFigure(
  points: PicturePoints,
  ellipse: PictureEllipse | null,
  text: PictureText,
  theme: PlotTheme,
): Figure {
  const [x, y, z] = [Array.from(points.x), Array.from(points.y), Array.from(points.value)]
  return {
    data: [
      {
        type: 'heatmap',
        x,
        y,
        z,
        ...coloursOf(z, text.signed),
        colorbar: { title: { text: text.value }, thickness: 12 },
        hovertemplate: `x %{x:.2f}, y %{y:.2f} ${text.unit}: %{z:.4g}<extra></extra>`,
      },
      ...(ellipse === null ? [] : [ellipseTrace(ellipse, text.signed)]),
    ],
    layout: pictureLayout(theme, text.unit, 'up'),
    sentence: text.sentence,
    table: {
      head: [`x, ${text.unit}`, `y, ${text.unit}`, text.value],
      rows: x.map((at, i) => [at, y[i] ?? 0, z[i] ?? 0]),
    },
  }
}
