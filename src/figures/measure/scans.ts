// Measured points over a coordinate: as they were read, and with what was fitted to them and its residual.

import { spanning } from '../axes'
import { type Chart, chart, type Mark, type Series } from '../chart'
import type { Figure } from '../figure'

interface PlottedSignal {
  readonly label: string
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
}

interface AxisTitles {
  readonly x: string
  readonly y: string
}

/** Signals are distinguished by their marks, not by colour. */
const MARKS: readonly Mark[] = ['circle', 'x', 'square', 'triangle', 'diamond']
const POINT_PX = 5

const pointsOf = (signal: PlottedSignal, i: number): Series => ({
  kind: 'points',
  name: signal.label,
  x: signal.x,
  y: signal.y,
  tone: 'quiet',
  mark: MARKS[i % MARKS.length] ?? 'circle',
  sizePx: POINT_PX,
})

function rowsOf(signals: readonly PlottedSignal[]): readonly (readonly (string | number)[])[] {
  return signals.flatMap(({ label, x, y }) => Array.from(x, (at, i) => [label, at, y[i] ?? 0]))
}

const joined = (lists: readonly ArrayLike<number>[]) => lists.flatMap((list) => Array.from(list))
const xAxis = (title: string, lists: readonly ArrayLike<number>[]) =>
  spanning(title, '', [joined(lists)], { room: 0.02, digits: 3 })
const yAxis = (title: string, lists: readonly ArrayLike<number>[]) =>
  spanning(title, '', lists, { digits: 4 })

/** The readings alone. */
export function readingsFigure(
  signals: readonly PlottedSignal[],
  titles: AxisTitles,
  sentence: string,
): Figure<Chart> {
  return {
    id: 'readings',
    sentence,
    picture: chart(
      xAxis(
        titles.x,
        signals.map(({ x }) => x),
      ),
      yAxis(
        titles.y,
        signals.map(({ y }) => y),
      ),
      signals.map(pointsOf),
    ),
    table: {
      columns: [{ label: 'Signal' }, { label: titles.x }, { label: titles.y }],
      rows: rowsOf(signals),
    },
  }
}

interface FittedSignal extends PlottedSignal {
  readonly fitted: ArrayLike<number>
  readonly residual: ArrayLike<number>
}

/** Points with their fit above, the residual below, on one coordinate. */
export function fitFigure(
  signal: FittedSignal,
  titles: AxisTitles & { readonly residual: string },
  sentence: string,
): Figure<Chart> {
  const { x, y, fitted, residual } = signal
  return {
    id: 'fit',
    sentence,
    picture: {
      kind: 'chart',
      x: xAxis(titles.x, [x]),
      panes: [
        {
          y: yAxis(titles.y, [y, fitted]),
          share: 3,
          series: [
            { ...pointsOf(signal, 0), name: 'measured' } as Series,
            { kind: 'line', name: 'fitted', x, y: fitted, tone: 'accent', weight: 'normal' },
          ],
        },
        {
          y: yAxis(titles.residual, [residual]),
          share: 1,
          series: [
            { kind: 'rule', axis: 'y', at: 0, dash: 'solid', weight: 'fine' },
            { kind: 'points', name: '', x, y: residual, tone: 'quiet', mark: 'circle', sizePx: 3.5 },
          ],
        },
      ],
    },
    table: {
      columns: [{ label: titles.x }, { label: 'Measured' }, { label: 'Fitted' }, { label: titles.residual }],
      rows: Array.from(x, (at, i) => [at, y[i] ?? 0, fitted[i] ?? 0, residual[i] ?? 0]),
    },
  }
}

/** Measured points with one or two lines, such as a straight line through losses or a predicted curve. */
export function pointsAndLinesFigure(
  points: PlottedSignal & { readonly flagged?: readonly boolean[] },
  lines: readonly PlottedSignal[],
  titles: AxisTitles,
  sentence: string,
): Figure<Chart> {
  const flagged = points.flagged ?? []
  return {
    id: 'points-and-lines',
    sentence,
    picture: chart(
      xAxis(titles.x, [points.x, ...lines.map(({ x }) => x)]),
      yAxis(titles.y, [points.y, ...lines.map(({ y }) => y)]),
      [
        ...lines.map(
          ({ label, x, y }, i): Series => ({
            kind: 'line',
            name: label,
            x,
            y,
            tone: i === 0 ? 'accent' : 'ink',
            dash: i === 0 ? 'solid' : 'dash',
          }),
        ),
        {
          kind: 'points',
          name: points.label,
          x: points.x,
          y: points.y,
          tone: 'ink',
          mark: Array.from(points.x, (_, i): Mark => (flagged[i] ? 'x' : 'circle')),
          sizePx: 7,
        },
      ],
    ),
    table: {
      columns: [{ label: 'Series' }, { label: titles.x }, { label: titles.y }],
      rows: [...rowsOf(lines), ...rowsOf([points])],
    },
  }
}
