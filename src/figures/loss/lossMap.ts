// Loss of a joint over two displacements: colours, contours, the working point and the accuracy of the alignment station.

import { type LossMap, MAP_CEILING_DB } from '../../analysis/tolerance/toleranceMap'
import { fixedText } from '../../numerics/numberText'
import { type Axis, type Chart, type ContourSeries, chart } from '../chart'
import type { Figure } from '../figure'
import type { AxisText } from './axisText'
import { type BesideNames, FIELD_NAMES } from './besideNames'

/** Station accuracy, core units: half of the box about the working point. */
interface MapBox {
  readonly halfX: number
  readonly halfY: number
}

/** Contours lie at these excess losses above the map's minimum, dB. */
const EXCESS_DB = [0.5, 1, 2, 3, 4, 5] as const
/** These have words on them, so that the map stays readable when it is small. */
const LETTERED_DB: readonly number[] = [1, 3, 5]
/** Margin around the outermost contour, as a part of the way to it. */
const ROOM = 1.12
/** Colours end this far above the minimum, dB. */
const SHOWN_ABOVE_MINIMUM_DB = 5

const scaled = (values: Float64Array, { perCore }: AxisText) =>
  perCore === 1 ? values : values.map((value) => value * perCore)

/** An axis over the middle part of a map that is looked at; one that begins at a least value keeps its beginning. */
function mapAxisOf({ name, unit, least }: AxisText, values: Float64Array, part: number): Axis {
  const [from, to] = [values[0] ?? 0, values.at(-1) ?? 1]
  const middle = (from + to) / 2
  const half = (part * (to - from)) / 2
  if (least !== undefined) return { title: name, unit, from, to: from + part * (to - from), digits: 2 }
  return { title: name, unit, from: middle - half, to: middle + half, digits: 2 }
}

/** The part of a map, on both axes alike, that holds every contour; at most the whole of it. */
function shownPart(map: LossMap, xText: AxisText, yText: AxisText): number {
  const away = (at: number, count: number, text: AxisText) =>
    text.least === undefined ? Math.abs((2 * at) / (count - 1) - 1) : at / (count - 1)
  const position = (at: number, values: Float64Array) =>
    ((at - (values[0] ?? 0)) / ((values.at(-1) ?? 1) - (values[0] ?? 0))) * (values.length - 1)
  let part = Math.max(
    away(position(map.atX, map.x), map.x.length, xText),
    away(position(map.atY, map.y), map.y.length, yText),
  )
  for (const [j, row] of map.rowsDb.entries()) {
    for (let i = 0; i < row.length; i++) {
      if ((row[i] as number) > map.leastDb + SHOWN_ABOVE_MINIMUM_DB) continue
      part = Math.max(part, away(i, map.x.length, xText), away(j, map.y.length, yText))
    }
  }
  return Math.min(1, ROOM * part)
}

/** From and to in the axis' unit; an axis that cannot go below a least value ends there. */
function boxSide(at: number, half: number, text: AxisText): readonly [from: number, to: number] {
  const from = Math.max(text.least ?? Number.NEGATIVE_INFINITY, at - half)
  return [from * text.perCore, (at + half) * text.perCore]
}

type GridOfMap = Pick<ContourSeries, 'x' | 'y' | 'rows'>

function contours(leastDb: number, own: GridOfMap, beside: GridOfMap | null): readonly ContourSeries[] {
  const levels = EXCESS_DB.map((excess) => ({
    value: leastDb + excess,
    strong: excess === 1,
    ...(LETTERED_DB.includes(excess) && { words: `+${excess} dB` }),
  }))
  const solid: ContourSeries = { kind: 'contours', ...own, levels }
  if (beside === null) return [solid]
  const plain = levels.map(({ value }) => ({ value }))
  return [solid, { kind: 'contours', ...beside, levels: plain, dash: 'dot', beside: true }]
}

/** The least loss of a map; at least the ceiling where the whole map lies there. */
const leastText = ({ leastDb }: LossMap) =>
  leastDb >= MAP_CEILING_DB ? `at least ${MAP_CEILING_DB}` : fixedText(leastDb, 2)

const STATION_WORDS = ' Dashed box: alignment-station accuracy.'

/** The map of a joint. `beside` is the same by Gaussians, whose contours lie thin and dotted over a map by fields or real lenses. */
export function lossMapFigure(
  id: string,
  map: LossMap,
  xText: AxisText,
  yText: AxisText,
  box: MapBox,
  beside: LossMap | null = null,
  names: BesideNames = FIELD_NAMES,
): Figure<Chart> {
  // Each map has positions of its own.
  const gridOf = (each: LossMap) => ({
    x: scaled(each.x, xText),
    y: scaled(each.y, yText),
    rows: each.rowsDb,
  })
  const own = gridOf(map)
  const { x, y } = own
  const part = shownPart(map, xText, yText)
  const picture = chart(
    mapAxisOf(xText, x, part),
    mapAxisOf(yText, y, part),
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
      ...contours(map.leastDb, own, beside === null ? null : gridOf(beside)),
      {
        kind: 'box',
        x: boxSide(map.atX, box.halfX, xText),
        y: boxSide(map.atY, box.halfY, yText),
        filled: false,
      },
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
    sentence: `Minimum coupling loss ${leastText(map)} dB; working point ${fixedText(map.hereDb, 2)} dB. Contours: excess loss above the minimum.${STATION_WORDS}${beside === null ? '' : ` Dotted: ${names.dotted}.`}`,
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

/** The map where what its box is is said next to it. */
export function withoutStation(map: Figure<Chart>): Figure<Chart> {
  return { ...map, sentence: map.sentence.replace(STATION_WORDS, '') }
}
