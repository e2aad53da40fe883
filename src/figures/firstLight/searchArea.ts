// The area that pre-alignment leaves to be searched, the points of the search and what each of them sees.

import type { LateralSearch } from '../../analysis/firstLight/search'
import { countText, fixedText } from '../../numerics/numberText'
import { type Chart, chart, type Series } from '../chart'
import type { Figure } from '../figure'

const ROOM = 1.15
/** More points than these would be a blot. */
const MOST_SHOWN = 2000
const ELLIPSE_POINTS = 73

export function searchAreaFigure(search: LateralSearch, lateralUm: number): Figure<Chart> {
  const { countX, countY, stepXUm, stepYUm, captureXUm, captureYUm } = search
  const positions = (count: number, step: number) =>
    Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * step)
  const isShown = countX * countY <= MOST_SHOWN
  const points = isShown
    ? positions(countY, stepYUm).flatMap((y) => positions(countX, stepXUm).map((x) => ({ x, y })))
    : []
  const turn = Array.from({ length: ELLIPSE_POINTS }, (_, i) => (2 * Math.PI * i) / (ELLIPSE_POINTS - 1))
  const [toX, toY] = [lateralUm, lateralUm].map(
    (half, i) => ROOM * Math.max(half, i === 0 ? captureXUm : captureYUm),
  )
  const ellipse: Series = {
    kind: 'line',
    name: 'capture range around a point',
    x: turn.map((angle) => captureXUm * Math.cos(angle)),
    y: turn.map((angle) => captureYUm * Math.sin(angle)),
    tone: 'accent',
  }
  return {
    id: 'search-area',
    sentence: `${countText(countX * countY)} points on a grid of ${fixedText(stepXUm, 1)} × ${fixedText(stepYUm, 1)} µm cover ± ${fixedText(lateralUm, 1)} µm.`,
    picture: chart(
      { title: 'Offset x', unit: 'µm', from: -(toX ?? 1), to: toX ?? 1, digits: 1 },
      { title: 'Offset y', unit: 'µm', from: -(toY ?? 1), to: toY ?? 1, digits: 1 },
      [
        { kind: 'box', x: [-lateralUm, lateralUm], y: [-lateralUm, lateralUm], filled: false },
        {
          kind: 'points',
          name: 'search points',
          x: points.map(({ x }) => x),
          y: points.map(({ y }) => y),
          tone: 'ink',
          mark: 'circle',
          sizePx: 4,
        },
        ellipse,
      ],
      { equalAxes: true },
    ),
    table: {
      columns: [
        { label: 'Point' },
        { label: 'Offset x', unit: 'µm', digits: 2 },
        { label: 'Offset y', unit: 'µm', digits: 2 },
      ],
      rows: points.map(({ x, y }, i) => [i + 1, x, y]),
    },
  }
}
