// A plain chart for paper: a frame with ticks and titles, and whatever is drawn into it. Lines differ by dash and width, so
// that they can be told apart in greyscale.

import { withMinus } from '../document/cells'
import { type Child, element, type Markup } from '../document/markup'

export interface Axis {
  readonly from: number
  readonly to: number
  readonly title: string
  /** Words in place of numbers, each at its place. */
  readonly names?: readonly { readonly at: number; readonly name: string }[]
}

export interface ChartFrame {
  readonly x: Axis
  readonly y: Axis
  readonly widthPx?: number
  readonly heightPx?: number
  readonly leftPx?: number
}

/** From data to pixels. */
export interface Places {
  readonly x: (value: number) => number
  readonly y: (value: number) => number
  readonly leftPx: number
  readonly rightPx: number
  readonly topPx: number
  readonly bottomPx: number
}

export const CHART_WIDTH_PX = 640
const HEIGHT_PX = 300
const MARGIN = { left: 56, right: 14, top: 12, bottom: 46 } as const
const TICKS_WANTED = 6
const TICK_PX = 4

/** Round places within a range, about as many as wanted. */
export function ticks(from: number, to: number, wanted = TICKS_WANTED): readonly number[] {
  const span = to - from
  if (!(span > 0)) return [from]
  const rough = span / wanted
  const decade = 10 ** Math.floor(Math.log10(rough))
  const step = decade * ([1, 2, 2.5, 5, 10].find((factor) => factor * decade >= rough) ?? 10)
  const first = Math.ceil(from / step - 1e-9)
  const count = Math.floor(to / step + 1e-9) - first + 1
  return Array.from({ length: count }, (_, i) => Number(((first + i) * step).toPrecision(12)))
}

const px = (value: number) => Number(value.toFixed(2))

export function label(
  x: number,
  y: number,
  words: string,
  anchor: 'start' | 'middle' | 'end' = 'middle',
): Markup {
  return element('text', { x: px(x), y: px(y), 'text-anchor': anchor }, words)
}

export function line(x1: number, y1: number, x2: number, y2: number, className: string): Markup {
  return element('line', { class: className, x1: px(x1), y1: px(y1), x2: px(x2), y2: px(y2) })
}

export function polyline(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  { x, y }: Places,
  className: string,
): Markup {
  const points = Array.from(xs, (value, i) => `${px(x(value))},${px(y(ys[i] ?? 0))}`)
  return element('polyline', { class: className, points: points.join(' ') })
}

export function bar(x1: number, y1: number, x2: number, y2: number, className: string): Markup {
  return element('rect', {
    class: className,
    x: px(Math.min(x1, x2)),
    y: px(Math.min(y1, y2)),
    width: px(Math.abs(x2 - x1)),
    height: px(Math.abs(y2 - y1)),
  })
}

/** A cross that marks a working point. */
export function cross(x: number, y: number): Markup {
  const half = 6
  return element('path', {
    class: 'chart-cross',
    d: `M${px(x - half)} ${px(y)}h${2 * half}M${px(x)} ${px(y - half)}v${2 * half}`,
  })
}

function axisMarks(axis: Axis, wanted: number) {
  return (
    axis.names?.map(({ at, name }) => ({ at, words: name })) ??
    ticks(axis.from, axis.to, wanted).map((at) => ({ at, words: withMinus(String(at)) }))
  )
}

/** Where a chart's data stand in it. */
export function placesOf(frame: ChartFrame): Places {
  const leftPx = frame.leftPx ?? MARGIN.left
  const rightPx = (frame.widthPx ?? CHART_WIDTH_PX) - MARGIN.right
  const topPx = MARGIN.top
  const bottomPx = (frame.heightPx ?? HEIGHT_PX) - MARGIN.bottom
  const along =
    ({ from, to }: Axis, start: number, end: number) =>
    (value: number) =>
      start + ((value - from) / (to - from)) * (end - start)
  return {
    x: along(frame.x, leftPx, rightPx),
    y: along(frame.y, bottomPx, topPx),
    leftPx,
    rightPx,
    topPx,
    bottomPx,
  }
}

/** The chart as an svg element; `draw` gets the places and returns what stands in the frame. */
export function chart(frame: ChartFrame, draw: (places: Places) => readonly Child[]): Markup {
  const widthPx = frame.widthPx ?? CHART_WIDTH_PX
  const heightPx = frame.heightPx ?? HEIGHT_PX
  const places = placesOf(frame)
  const { leftPx, rightPx, topPx, bottomPx } = places
  const xMarks = axisMarks(frame.x, TICKS_WANTED).map(({ at, words }) => [
    line(places.x(at), bottomPx, places.x(at), bottomPx + TICK_PX, 'chart-axis'),
    label(places.x(at), bottomPx + 17, words),
  ])
  const yMarks = axisMarks(frame.y, TICKS_WANTED - 1).map(({ at, words }) => [
    frame.y.names === undefined ? line(leftPx, places.y(at), rightPx, places.y(at), 'chart-grid') : null,
    line(leftPx - TICK_PX, places.y(at), leftPx, places.y(at), 'chart-axis'),
    label(leftPx - 7, places.y(at) + 4, words, 'end'),
  ])
  const middle = (topPx + bottomPx) / 2
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'chart',
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      role: 'presentation',
    },
    yMarks,
    draw(places),
    xMarks,
    element('rect', {
      class: 'chart-frame',
      x: leftPx,
      y: topPx,
      width: rightPx - leftPx,
      height: bottomPx - topPx,
    }),
    label((leftPx + rightPx) / 2, heightPx - 8, frame.x.title),
    frame.y.title === ''
      ? null
      : element(
          'text',
          { x: 0, y: 0, 'text-anchor': 'middle', transform: `translate(14 ${px(middle)}) rotate(-90)` },
          frame.y.title,
        ),
  )
}
