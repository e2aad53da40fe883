// Loss of a joint against one displacement, with the places where half, one and three decibels of excess loss are reached.

import type { AxisWindow, LossCurve } from '../../analysis/tolerance/toleranceCurve'
import { fixedText } from '../../numerics/numberText'
import { along, lossAxis } from '../axes'
import { type Chart, chart, type LineSeries, type Mark } from '../chart'
import type { Figure } from '../figure'
import type { AxisText } from './axisText'
import { type BesideNames, FIELD_NAMES } from './besideNames'

const MARKS: readonly Mark[] = ['circle', 'square', 'diamond']

/**
 * The figure of one axis; losses are totals of the joint in dB. `beside` is the same by Gaussians, where the curve is by
 * fields or real lenses.
 */
export function lossCurveFigure(
  curve: LossCurve,
  window: AxisWindow,
  workingLossDb: number,
  text: AxisText,
  beside: LossCurve | null = null,
  names: BesideNames = FIELD_NAMES,
): Figure<Chart> {
  const shown = (core: number) => core * text.perCore
  const x = Float64Array.from(curve.positions, shown)
  const marks = window.marks.map((mark, i) => {
    const crossings = [
      mark.below === null ? null : window.at - mark.below,
      mark.above === null ? null : window.at + mark.above,
    ].filter((crossing) => crossing !== null)
    return {
      kind: 'points' as const,
      name: `+${mark.excessDb} dB`,
      x: crossings.map(shown),
      y: crossings.map(() => workingLossDb + mark.excessDb),
      tone: 'ink' as const,
      mark: MARKS[i] ?? 'x',
      unread: true,
    }
  })
  const gaussian: readonly LineSeries[] =
    beside === null
      ? []
      : [
          {
            kind: 'line',
            name: names.beside,
            x: Float64Array.from(beside.positions, shown),
            y: beside.lossesDb,
            tone: 'ink',
            dash: 'dot',
            weight: 'fine',
          },
        ]
  const y = lossAxis('Coupling loss', curve.lossesDb, ...gaussian.map((each) => each.y), [
    workingLossDb,
    ...marks.flatMap((each) => each.y),
  ])
  return {
    id: 'loss-curve',
    sentence: `${text.name}: ${fixedText(workingLossDb, 2)} dB at the working point; ${excessWords(window, text)}.`,
    picture: chart(along(text.name, text.unit, x), y, [
      ...gaussian,
      {
        kind: 'line',
        name: beside === null ? '' : names.own,
        x,
        y: curve.lossesDb,
        tone: 'accent',
      },
      ...marks.filter((each) => each.x.length > 0),
      {
        kind: 'points',
        name: 'working point',
        x: [shown(window.at)],
        y: [workingLossDb],
        tone: 'accent',
        mark: 'cross',
        sizePx: 12,
        unread: true,
      },
    ]),
    table: {
      columns: [
        { label: text.name, unit: text.unit },
        { label: 'Loss', unit: 'dB' },
        ...(beside === null ? [] : [{ label: names.column, unit: 'dB' }]),
      ],
      rows: Array.from(x, (at, i) => [
        at,
        curve.lossesDb[i] ?? 0,
        ...(beside === null ? [] : [beside.lossesDb[i] ?? 0]),
      ]),
    },
  }
}

/** Where one decibel is added: `1 dB excess loss at −1.89 / +1.89 µm`. */
function excessWords(window: AxisWindow, text: AxisText): string {
  const oneDb = window.marks.find((mark) => mark.excessDb === 1)
  const side = (sign: string, reach: number | null | undefined) =>
    reach === null || reach === undefined ? [] : [`${sign}${fixedText(reach * text.perCore, 2)}`]
  const sides = [...side('\u2212', oneDb?.below), ...side('+', oneDb?.above)]
  if (sides.length === 0) return '1 dB excess loss is not reached on this axis'
  return `1 dB excess loss at ${sides.join(' / ')}${text.unit === '°' ? '' : ' '}${text.unit} from there`
}
