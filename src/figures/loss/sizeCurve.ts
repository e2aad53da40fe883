// Loss against the size of a part: the optimum, the present size, and the range that meets the limit.

import type { SizeCurve } from '../../analysis/sizing/sizeCurve'
import { withUnitLabel } from '../../model/quantity/units'
import { fixedText, plainText } from '../../numerics/numberText'
import { along, lossAxis } from '../axes'
import { type Chart, chart, type Series } from '../chart'
import type { Figure } from '../figure'
import type { AxisText } from './axisText'

const SHOWN_DB = 6

export function sizeCurveFigure(curve: SizeCurve, limitDb: number, text: AxisText): Figure<Chart> {
  const { bestDb, nowDb, readings } = curve
  const shown = (core: number) => (readings === null ? core * text.perCore : core)
  const sized = (core: number) => withUnitLabel(plainText(shown(core), readings === null ? 4 : 3), text.unit)
  const edge = (core: number) => plainText(shown(core), 3)
  // A reading, such as a magnification, replaces the size that produces it.
  const values = readings?.values ?? curve.values
  const now = readings?.now ?? curve.now
  const best = readings?.best ?? curve.best
  const [one, other] = readings?.band ?? [curve.band?.from ?? 0, curve.band?.to ?? 0]
  const band =
    curve.band === null
      ? null
      : { from: Math.min(one, other), to: Math.max(one, other), open: curve.band.open }
  const bandText =
    band === null
      ? `no size meets the limit of ${limitDb} dB`
      : `${edge(band.from)} to ${withUnitLabel(edge(band.to), text.unit)} meets the limit of ${limitDb} dB${band.open ? ' (the range may extend beyond the curve)' : ''}`
  const x = Float64Array.from(values, shown)
  const top = Math.max(limitDb * 1.2, bestDb + SHOWN_DB)
  const inView = Array.from(curve.lossesDb, (lossDb) => (lossDb <= top ? lossDb : null))
  const range: readonly Series[] =
    band === null ? [] : [{ kind: 'box', x: [shown(band.from), shown(band.to)], y: null, filled: true }]
  return {
    id: 'size-curve',
    sentence: `${text.name}: optimum ${sized(best)} at ${fixedText(bestDb, 2)} dB, current ${sized(now)} at ${fixedText(nowDb, 2)} dB; ${bandText}.`,
    picture: chart(
      along(text.name, text.unit, x, 3),
      { ...lossAxis('Nominal loss', [0], inView, [limitDb * 1.2]), from: 0 },
      [
        ...range,
        { kind: 'line', name: '', x, y: inView, tone: 'accent' },
        { kind: 'rule', axis: 'y', at: limitDb, label: 'limit' },
        {
          kind: 'points',
          name: 'current',
          x: [shown(now)],
          y: [nowDb],
          tone: 'accent',
          mark: 'cross',
          sizePx: 12,
          unread: true,
        },
        {
          kind: 'points',
          name: 'optimum',
          x: [shown(best)],
          y: [bestDb],
          tone: 'ink',
          mark: 'diamond',
          sizePx: 10,
          unread: true,
        },
      ],
    ),
    table: {
      columns: [
        { label: text.name, unit: text.unit },
        { label: 'Nominal loss', unit: 'dB' },
      ],
      rows: Array.from(x, (value, i) => [value, curve.lossesDb[i] ?? 0]),
    },
  }
}
