// A solved mode: its intensity with contours over the outlines of the cross-section, cuts in decibels, and a sweep.

import { CIVIDIS } from './cividis'
import { baseLayout, type Figure, type PlotTheme } from './figure'

/** A level of exp(-2): where widths of Gaussians are read. */
const GAUSSIAN_WIDTH_DB = -20 / Math.LN10
const FLOOR_DB = -40
const MARKS = '#ffffff'
const OUTLINE_POINTS = 121
/** Room for a legend above the axes. */
const LEGEND_MARGIN = { l: 56, r: 16, t: 40, b: 48 } as const

export interface Outline {
  readonly x: readonly number[]
  readonly y: readonly number[]
}

export interface ModePicture {
  readonly xUm: readonly number[]
  readonly yUm: readonly number[]
  /** Row by row from the lowest, 0 at the peak. */
  readonly rowsDb: readonly (readonly number[])[]
  readonly cores: readonly Outline[]
  readonly layerHeightsUm: readonly number[]
  readonly gaussian: {
    readonly centreX: number
    readonly centreY: number
    readonly mfdX: number
    readonly mfdY: number
  }
}

function ellipse({ centreX, centreY, mfdX, mfdY }: ModePicture['gaussian']): Outline {
  const turns = Array.from({ length: OUTLINE_POINTS }, (_, i) => (2 * Math.PI * i) / (OUTLINE_POINTS - 1))
  return {
    x: turns.map((turn) => centreX + (mfdX / 2) * Math.cos(turn)),
    y: turns.map((turn) => centreY + (mfdY / 2) * Math.sin(turn)),
  }
}

const line = (outline: Outline, dash: string, width: number) => ({
  type: 'scatter',
  mode: 'lines',
  ...outline,
  line: { color: MARKS, width, dash },
  hoverinfo: 'skip',
  showlegend: false,
})

/** Contours at -3 dB, at 1/e^2 and each ten decibels; the dashed ellipse is the best Gaussian at 1/e^2. */
export function modeMapFigure(picture: ModePicture, sentence: string, theme: PlotTheme): Figure {
  const { xUm, yUm, rowsDb, cores, layerHeightsUm, gaussian } = picture
  const clipped = rowsDb.map((row) => row.map((value) => Math.max(FLOOR_DB, value)))
  const layout = baseLayout(theme, 'x, µm', 'Height above the substrate, µm')
  const bare = { showgrid: false, zeroline: false, constrain: 'domain' }
  const [left, right] = [xUm[0] ?? 0, xUm.at(-1) ?? 0]
  const [bottom, top] = [yUm[0] ?? 0, yUm.at(-1) ?? 0]
  const contours = [-3, GAUSSIAN_WIDTH_DB, -20, -30].map((level) => ({
    type: 'contour',
    x: xUm,
    y: yUm,
    z: clipped,
    autocontour: false,
    contours: { start: level, end: level, size: 1, coloring: 'none' },
    line: { color: MARKS, width: level === GAUSSIAN_WIDTH_DB ? 2 : 1 },
    showscale: false,
    hoverinfo: 'skip',
  }))
  return {
    data: [
      {
        type: 'heatmap',
        x: xUm,
        y: yUm,
        z: clipped,
        zmin: FLOOR_DB,
        zmax: 0,
        colorscale: CIVIDIS,
        colorbar: { title: { text: 'dB' }, thickness: 12 },
        hovertemplate: 'x %{x:.2f}, height %{y:.2f} µm: %{z:.1f} dB<extra></extra>',
      },
      ...contours,
      ...cores.map((outline) => line(outline, 'solid', 1.5)),
      ...layerHeightsUm
        .filter((height) => height > bottom && height < top)
        .map((height) => line({ x: [left, right], y: [height, height] }, 'dot', 1)),
      line(ellipse(gaussian), 'dash', 1),
    ],
    layout: {
      ...layout,
      xaxis: { ...(layout.xaxis as object), ...bare, range: [left, right] },
      yaxis: { ...(layout.yaxis as object), ...bare, scaleanchor: 'x', range: [bottom, top] },
    },
    sentence,
    table: {
      head: ['x, µm', 'Height, µm', 'Intensity, dB'],
      rows: rowsDb.flatMap((row, j) => row.map((value, i) => [xUm[i] ?? 0, yUm[j] ?? 0, value])),
    },
  }
}

export interface CutLine {
  readonly name: string
  /** From the centre of the best Gaussian. */
  readonly positionUm: readonly number[]
  readonly db: readonly number[]
  readonly gaussianDb: readonly number[]
}

export function cutFigure(cut: CutLine, sentence: string, theme: PlotTheme): Figure {
  const layout = baseLayout(theme, `Along ${cut.name}, µm from the centre`, 'Intensity, dB')
  const shown = cut.db.flatMap((value, i) => (value > FLOOR_DB - 5 ? [cut.positionUm[i] ?? 0] : []))
  const trace = (name: string, db: readonly number[], style: object) => ({
    type: 'scatter',
    mode: 'lines',
    name,
    x: cut.positionUm,
    y: db,
    line: style,
    hovertemplate: `%{x:.2f} µm: %{y:.1f} dB<extra>${name}</extra>`,
  })
  return {
    data: [
      trace('mode', cut.db, { color: theme.accent, width: 2 }),
      trace('best Gaussian', cut.gaussianDb, { color: theme.ink, width: 1, dash: 'dash' }),
    ],
    layout: {
      ...layout,
      margin: LEGEND_MARGIN,
      xaxis: { ...(layout.xaxis as object), range: [Math.min(...shown), Math.max(...shown)] },
      yaxis: { ...(layout.yaxis as object), range: [FLOOR_DB, 2] },
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
    },
    sentence,
    table: {
      head: [`${cut.name}, µm`, 'Mode, dB', 'Best Gaussian, dB'],
      rows: cut.positionUm.map((at, i) => [at, cut.db[i] ?? 0, cut.gaussianDb[i] ?? 0]),
    },
  }
}

export interface SweepLines {
  readonly name: string
  readonly unit: string
  readonly values: readonly number[]
  /** Null where there is no mode. */
  readonly mfdXUm: readonly (number | null)[]
  readonly mfdYUm: readonly (number | null)[]
  readonly lossDb: readonly (number | null)[]
  readonly gaussianDb: readonly (number | null)[]
  readonly chosen: number | null
  readonly now: number
}

/** Diameters below, coupling loss above, on one axis; the upright lines are the present and the chosen value. */
export function modeSweepFigure(sweep: SweepLines, sentence: string, theme: PlotTheme): Figure {
  const { name, unit, values, mfdXUm, mfdYUm, lossDb, gaussianDb, chosen, now } = sweep
  const layout = baseLayout(theme, `${name}, ${unit}`, 'MFD, µm')
  const withLoss = lossDb.some((loss) => loss !== null)
  const trace = (label: string, y: readonly (number | null)[], yaxis: string, style: object) => ({
    type: 'scatter',
    mode: 'lines+markers',
    name: label,
    x: values,
    y,
    yaxis,
    line: style,
    marker: { size: 4 },
    connectgaps: false,
    hovertemplate: `%{x:.4g} ${unit}: %{y:.3g}<extra>${label}</extra>`,
  })
  const upright = (at: number, dash: string) => ({
    type: 'line',
    yref: 'paper',
    x0: at,
    x1: at,
    y0: 0,
    y1: 1,
    line: { color: theme.ink, width: 1, dash },
  })
  return {
    data: [
      trace('MFD x', mfdXUm, 'y', { color: theme.accent, width: 2 }),
      trace('MFD y', mfdYUm, 'y', { color: theme.accent, width: 2, dash: 'dash' }),
      ...(withLoss
        ? [
            trace('loss, field', lossDb, 'y2', { color: theme.ink, width: 2 }),
            trace('loss, Gaussian', gaussianDb, 'y2', { color: theme.ink, width: 1, dash: 'dot' }),
          ]
        : []),
    ],
    layout: {
      ...layout,
      margin: LEGEND_MARGIN,
      yaxis: { ...(layout.yaxis as object), domain: withLoss ? [0, 0.46] : [0, 1], rangemode: 'tozero' },
      ...(withLoss
        ? {
            yaxis2: {
              ...(layout.yaxis as object),
              title: { text: 'Loss, dB', standoff: 8 },
              domain: [0.54, 1],
              anchor: 'x',
              rangemode: 'tozero',
            },
          }
        : {}),
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      shapes: [upright(now, 'dot'), ...(chosen === null ? [] : [upright(chosen, 'solid')])],
    },
    sentence,
    table: {
      head: [`${name}, ${unit}`, 'MFD x, µm', 'MFD y, µm', 'Loss by the field, dB', 'Loss by Gaussians, dB'],
      rows: values.map((value, i) => [
        value,
        mfdXUm[i] ?? 'no mode',
        mfdYUm[i] ?? 'no mode',
        lossDb[i] ?? 'none',
        gaussianDb[i] ?? 'none',
      ]),
    },
  }
}
