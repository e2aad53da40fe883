// A mode as a picture of its intensity with contours, as its phase, and as cuts in decibels.

import type { FieldCut, ModePicture } from '../analysis/field/fieldPictures'
import { CIVIDIS } from './cividis'
import { baseLayout, type Figure, type PlotTheme } from './figure'

/** A closed scale: the ends of a phase are one. Own choice of steps, light about zero. */
const ROUND = [
  [0, '#2b3a67'],
  [0.25, '#7fa3c7'],
  [0.5, '#f4f1ea'],
  [0.75, '#d59a6a'],
  [1, '#2b3a67'],
] as const

/** Contours of intensity, dB below the peak; -8.69 dB is 1/e^2. */
const CONTOUR_STEP_DB = 3
const FLOOR_DB = -30
const DEGREES = 180 / Math.PI

type DrawnField = ModePicture['field']

function toScale(theme: PlotTheme): Readonly<Record<string, unknown>> {
  const layout = baseLayout(theme, 'x, µm', 'y, µm')
  const bare = { showgrid: false, zeroline: false, constrain: 'domain' }
  return {
    ...layout,
    xaxis: { ...(layout.xaxis as object), ...bare },
    yaxis: { ...(layout.yaxis as object), ...bare, scaleanchor: 'x' },
  }
}

function grid(field: DrawnField) {
  const x = Float64Array.from({ length: field.nx }, (_, i) => field.x0Um + i * field.dxUm)
  const y = Float64Array.from({ length: field.ny }, (_, j) => field.y0Um + j * field.dyUm)
  return { x, y }
}

const decibels = (re: number, im: number) =>
  Math.max(FLOOR_DB, 10 * Math.log10(Math.max(re * re + im * im, 1e-12)))

function valueTable(field: DrawnField, name: string, values: Float64Array): Figure['table'] {
  const { x, y } = grid(field)
  return {
    head: ['x, µm', 'y, µm', name],
    rows: Array.from(values, (value, i) => [x[i % field.nx] ?? 0, y[Math.floor(i / field.nx)] ?? 0, value]),
  }
}

function rowsOf(field: DrawnField, values: Float64Array): readonly Float64Array[] {
  return Array.from({ length: field.ny }, (_, j) => values.subarray(j * field.nx, (j + 1) * field.nx))
}

/** Intensity below its peak, to 30 dB, contours every 3 dB. */
export function modeIntensityFigure(field: DrawnField, sentence: string, theme: PlotTheme): Figure {
  const values = field.re.map((re, i) => decibels(re, field.im[i] ?? 0))
  return {
    data: [
      {
        type: 'contour',
        ...grid(field),
        z: rowsOf(field, values),
        colorscale: CIVIDIS,
        autocontour: false,
        contours: { start: FLOOR_DB, end: -CONTOUR_STEP_DB, size: CONTOUR_STEP_DB },
        line: { width: 0.5, color: 'rgba(255,255,255,0.55)' },
        colorbar: { title: { text: 'dB' }, thickness: 12 },
        hovertemplate: 'x %{x:.2f}, y %{y:.2f} µm: %{z:.1f} dB<extra></extra>',
      },
    ],
    layout: toScale(theme),
    sentence,
    table: valueTable(field, 'Intensity, dB', values),
  }
}

/** Phase in degrees where there is light: within 30 dB of the peak, against that on the axis. */
export function modePhaseFigure(field: DrawnField, sentence: string, theme: PlotTheme): Figure {
  const middle = Math.round(-field.y0Um / field.dyUm) * field.nx + Math.round(-field.x0Um / field.dxUm)
  const onAxis = Math.atan2(field.im[middle] ?? 0, field.re[middle] ?? 1)
  const values = field.re.map((re, i) => {
    const im = field.im[i] ?? 0
    if (decibels(re, im) <= FLOOR_DB) return Number.NaN
    const turn = Math.atan2(im, re) - onAxis
    return DEGREES * Math.atan2(Math.sin(turn), Math.cos(turn))
  })
  return {
    data: [
      {
        type: 'heatmap',
        ...grid(field),
        z: rowsOf(field, values),
        colorscale: ROUND,
        zmin: -180,
        zmax: 180,
        colorbar: { title: { text: '°' }, thickness: 12, tickvals: [-180, -90, 0, 90, 180] },
        hovertemplate: 'x %{x:.2f}, y %{y:.2f} µm: %{z:.0f}°<extra></extra>',
      },
    ],
    layout: toScale(theme),
    sentence,
    table: valueTable(
      field,
      'Phase, °',
      values.map((value) => (Number.isNaN(value) ? 0 : value)),
    ),
  }
}

export interface NamedCut {
  readonly name: string
  readonly cut: FieldCut
}

const DASHES = ['solid', 'dash'] as const

/** Cuts of both modes along one axis, with their Gaussians thin. */
export function modeCutFigure(
  axis: 'x' | 'y',
  cuts: readonly NamedCut[],
  sentence: string,
  theme: PlotTheme,
): Figure {
  const positions = cuts[0]?.cut.positionsUm ?? new Float64Array(0)
  return {
    data: cuts.flatMap(({ name, cut }, at) => [
      {
        type: 'scatter',
        mode: 'lines',
        x: cut.positionsUm,
        y: cut.fieldDb,
        name,
        line: { color: at === 0 ? theme.accent : theme.ink, width: 2, dash: DASHES[at] ?? 'solid' },
        hovertemplate: `%{x:.2f} µm: %{y:.1f} dB<extra>${name}</extra>`,
      },
      {
        type: 'scatter',
        mode: 'lines',
        x: cut.positionsUm,
        y: cut.gaussianDb,
        name: `${name}, Gaussian`,
        line: { color: at === 0 ? theme.accent : theme.ink, width: 1, dash: 'dot' },
        hoverinfo: 'skip',
      },
    ]),
    layout: {
      ...baseLayout(theme, `${axis}, µm`, 'Intensity, dB below the peak'),
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
    },
    sentence,
    table: {
      head: [`${axis}, µm`, ...cuts.flatMap(({ name }) => [`${name}, dB`, `${name} as a Gaussian, dB`])],
      rows: Array.from(positions, (position, i) => [
        position,
        ...cuts.flatMap(({ cut }) => [cut.fieldDb[i] ?? 0, cut.gaussianDb[i] ?? 0]),
      ]),
    },
  }
}
