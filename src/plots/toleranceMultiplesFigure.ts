// What one displacement costs in each candidate: small pictures on one common scale.

import { baseLayout, type Figure, type PlotTheme } from './figure'
import type { CurveText } from './lossCurveFigure'

export interface CandidateCurve {
  readonly name: string
  /** Displacement from the working point, core units, and what it adds to the loss, dB. */
  readonly displacements: Float64Array
  readonly excessDb: Float64Array
}

const COLUMNS = 4
const EXCESS_SHOWN_DB = 3
const GUTTER = 0.035
const ROW_GUTTER = 0.22

const axisName = (letter: 'x' | 'y', i: number) => (i === 0 ? letter : `${letter}${i + 1}`)
const layoutName = (letter: 'x' | 'y', i: number) => `${letter}axis${i === 0 ? '' : i + 1}`

function domainOf(place: number, count: number, gutter: number): readonly [number, number] {
  const size = (1 - gutter * (count - 1)) / count
  const from = place * (size + gutter)
  return [from, from + size]
}

/** Widest of the displacements at which a curve still is below the shown excess, so that all fit one scale. */
function commonReach(curves: readonly CandidateCurve[], perCore: number): number {
  let reach = 0
  for (const curve of curves) {
    for (const [i, at] of curve.displacements.entries()) {
      if ((curve.excessDb[i] ?? 0) <= EXCESS_SHOWN_DB) reach = Math.max(reach, Math.abs(at) * perCore)
    }
  }
  return reach || 1
}

export function multiplesRows(count: number): number {
  return Math.max(1, Math.ceil(count / COLUMNS))
}

export function toleranceMultiplesFigure(
  curves: readonly CandidateCurve[],
  text: CurveText,
  theme: PlotTheme,
): Figure {
  const rows = multiplesRows(curves.length)
  const reach = commonReach(curves, text.perCore)
  const axes = Object.fromEntries(
    curves.flatMap((_, i) => {
      const [column, row] = [i % COLUMNS, Math.floor(i / COLUMNS)]
      const common = {
        gridcolor: theme.rule,
        zerolinecolor: theme.rule,
        linecolor: theme.ink,
        ticks: 'outside',
      }
      return [
        [
          layoutName('x', i),
          {
            ...common,
            domain: domainOf(column, COLUMNS, GUTTER),
            range: [-reach, reach],
            anchor: axisName('y', i),
            nticks: 5,
            title: { text: row === rows - 1 || i + COLUMNS >= curves.length ? text.unit : '', standoff: 4 },
          },
        ],
        [
          layoutName('y', i),
          {
            ...common,
            domain: domainOf(rows - 1 - row, rows, ROW_GUTTER),
            range: [0, EXCESS_SHOWN_DB],
            anchor: axisName('x', i),
            nticks: 4,
            title: { text: column === 0 ? 'dB more' : '', standoff: 4 },
          },
        ],
      ]
    }),
  )
  const { xaxis: _, yaxis: __, ...layout } = baseLayout(theme, '', '')
  return {
    data: curves.map((curve, i) => ({
      type: 'scatter',
      mode: 'lines',
      name: curve.name,
      x: Array.from(curve.displacements, (at) => at * text.perCore),
      y: Array.from(curve.excessDb),
      xaxis: axisName('x', i),
      yaxis: axisName('y', i),
      line: { color: theme.accent, width: 2 },
      hovertemplate: `%{x:.2f} ${text.unit}: %{y:.2f} dB more<extra>${curve.name}</extra>`,
    })),
    layout: {
      ...layout,
      ...axes,
      margin: { l: 48, r: 8, t: 28, b: 52 },
      annotations: curves.map((curve, i) => ({
        text: curve.name,
        xref: `${axisName('x', i)} domain`,
        yref: `${axisName('y', i)} domain`,
        x: 0,
        y: 1,
        xanchor: 'left',
        yanchor: 'bottom',
        showarrow: false,
        font: { size: 12 },
      })),
    },
    sentence: `${text.name} from the working point, all on one scale; the flatter the curve, the more room.`,
    table: {
      head: ['Candidate', `${text.name}, ${text.unit}`, 'Loss added, dB'],
      rows: curves.flatMap((curve) =>
        Array.from(curve.displacements, (at, i) => [curve.name, at * text.perCore, curve.excessDb[i] ?? 0]),
      ),
    },
  }
}
