// What a chart shows at a place: the values under the pointer, in words, for the line next to the picture.

import { withUnitLabel } from '../model/quantity/units'
import { fixedText } from '../numerics/numberText'
import type { Chart, ChartPane, GridValues, Series } from './chart'

function nearest(values: ArrayLike<number>, at: number): number {
  let best = 0
  for (let i = 1; i < values.length; i++) {
    if (Math.abs((values[i] ?? 0) - at) < Math.abs((values[best] ?? 0) - at)) best = i
  }
  return best
}

function gridValue({ x, y, rows }: GridValues, atX: number, atY: number): number {
  return rows[nearest(y, atY)]?.[nearest(x, atX)] ?? Number.NaN
}

const withUnit = (text: string, unit = '') => withUnitLabel(text, unit)

function seriesText(pane: ChartPane, series: Series, atX: number, atY: number): string | null {
  const axis = 'right' in series && series.right && pane.right !== undefined ? pane.right : pane.y
  const named = (name: string, text: string) => (name === '' ? text : `${name} ${text}`)
  const value = (name: string, y: number | null | undefined) =>
    y === null || y === undefined || !Number.isFinite(y)
      ? null
      : named(name, withUnit(fixedText(y, axis.digits ?? 2), axis.unit))
  if ('unread' in series && series.unread) return null
  switch (series.kind) {
    case 'line':
    case 'points':
      return value(series.name, series.y[nearest(series.x, atX)])
    case 'band':
    case 'whiskers': {
      const i = nearest(series.x, atX)
      const text = `${fixedText(series.low[i] ?? 0, axis.digits ?? 2)} to ${fixedText(series.high[i] ?? 0, axis.digits ?? 2)}`
      return named(series.name, withUnit(text, axis.unit))
    }
    case 'bars': {
      const i = nearest(series.at, series.lying ? atY : atX)
      const [from, to] = [series.from[i] ?? 0, series.to[i] ?? 0]
      return series.lying
        ? named(series.name, series.labels?.[i] ?? fixedText(to - from, 2))
        : value(series.name, to)
    }
    case 'map': {
      const reading = gridValue(series, atX, atY)
      return Number.isFinite(reading) ? withUnit(fixedText(reading, series.digits), series.unit) : null
    }
    default:
      return null
  }
}

const axisWords = (axis: Chart['x'], at: number) =>
  `${axis.title} ${withUnit(fixedText(at, axis.digits ?? 2), axis.unit)}`

/** The values at a place of one pane, `Offset x 0.42 µm: 5.42 dB`. */
export function readAt(chart: Chart, paneAt: number, atX: number, atY: number): string {
  const pane = chart.panes[paneAt]
  if (pane === undefined) return ''
  const isMap = pane.series.some(({ kind }) => kind === 'map')
  const texts = pane.series
    .map((series) => seriesText(pane, series, atX, atY))
    .filter((text): text is string => text !== null)
  const lying = pane.series.some((series) => series.kind === 'bars' && series.lying)
  const name = pane.y.names?.[nearest(pane.y.names?.map(({ at }) => at) ?? [], atY)]?.name
  const position = lying
    ? (name ?? '')
    : isMap
      ? `${axisWords(chart.x, atX)}, ${axisWords(pane.y, atY)}`
      : (chart.x.names?.find(({ at }) => Math.abs(at - atX) < 0.5)?.name ?? axisWords(chart.x, atX))
  return texts.length === 0 ? position : `${position}: ${texts.join(', ')}`
}
