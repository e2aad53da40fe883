// Loss of a joint over two displacements: colours, contours, the working point and the accuracy of the alignment station.

import type { LossMap } from '../../analysis/tolerance/toleranceMap'
import { type Axis, type Chart, type ContourSeries, chart } from '../chart'
import type { Figure } from '../figure'
import { fixedText } from '../numberText'
import type { AxisText } from './axisText'

/** Station accuracy, core units: half of the box about the working point. */
export interface MapBox {
  readonly halfX: number
  readonly halfY: number
}

/** Contours lie at these excess losses above the map's minimum, dB. */
const EXCESS_DB = [0.5, 1, 2, 3, 4, 5] as const
/** Colours end this far above the minimum, dB. */
export const SHOWN_ABOVE_MINIMUM_DB = 5

const scaled = (values: Float64Array, { perCore }: AxisText) =>
  perCore === 1 ? values : values.map((value) => value * perCore)

function mapAxisOf({ name, unit }: AxisText, values: Float64Array): Axis {
  return { title: name, unit, from: values[0] ?? 0, to: values.at(-1) ?? 1, digits: 2 }
}

/** From and to in the axis' unit; an axis that cannot go below a least value ends there. */
export function boxSide(at: number, half: number, text: AxisText): readonly [from: number, to: number] {
  const from = Math.max(text.least ?? Number.NEGATIVE_INFINITY, at - half)
  return [from * text.perCore, (at + half) * text.perCore]
}

function contours(map: LossMap, x: Float64Array, y: Float64Array, beside: LossMap | null): readonly ContourSeries[] {
  const levels = EXCESS_DB.map((excess) => ({
    value: map.leastDb + excess,
    words: `+${excess} dB`,
    strong: excess === 1,
  }))
  const own: ContourSeries = { kind: 'contours', x, y, rows: map.rowsDb, levels }
  if (beside === null) return [own]
  const plain = levels.map(({ value }) => ({ value }))
  return [own, { kind: 'contours', x, y, rows: beside.rowsDb, levels: plain, dash: 'dot', beside: true }]
}

/** The map of a joint. `beside` is the same by Gaussians, whose contours lie thin and dotted over a map by fields. */
export function lossMapFigure(
  id: string,
  map: LossMap,
  xText: AxisText,
  yText: AxisText,
  box: MapBox,
  beside: LossMap | null = null,
): Figure<Chart> {
  const [x, y] = [scaled(map.x, xText), scaled(map.y, yText)]
  const picture = chart(
    mapAxisOf(xText, x),
    mapAxisOf(yText, y),
    [
      {
        kind: 'map',
        x,
        y,
        rows: map.rowsDb,
        scale: 'loss',
        from: map.leastDb,
        to: map.leastDb + SHOWN_ABOVE_MINIMUM_DB,
        title: 'Loss',
        unit: 'dB',
        digits: 2,
      },
      ...contours(map, x, y, beside),
      { kind: 'box', x: boxSide(map.atX, box.halfX, xText), y: boxSide(map.atY, box.halfY, yText), filled: false },
      {
        kind: 'points',
        name: 'working point',
        x: [map.atX * xText.perCore],
        y: [map.atY * yText.perCore],
        tone: 'core',
        mark: 'cross',
        sizePx: 13,
        legend: false,
        unread: true,
      },
    ],
    { equalAxes: xText.unit === 'µm' && yText.unit === 'µm' },
  )
  return {
    id,
    sentence: `Minimum ${fixedText(map.leastDb, 2)} dB; working point ${fixedText(map.hereDb, 2)} dB. Contours: excess loss above the minimum. Dashed box: alignment-station accuracy.${beside === null ? '' : ' Dotted: the same contours by Gaussians.'}`,
    picture,
    table: {
      columns: [
        { label: xText.name, unit: xText.unit },
        { label: yText.name, unit: yText.unit },
        { label: 'Loss', unit: 'dB' },
      ],
      // Thousands of rows, made only on request: the map is made anew in every frame of a drag.
      get rows() {
        return map.rowsDb.flatMap((row, j) => Array.from(row, (loss, i) => [x[i] ?? 0, y[j] ?? 0, loss]))
      },
    },
  }
}
