// Excess loss against one displacement for each design: small charts on one common scale.

import { type Chart, chart } from '../chart'
import type { Figure, Multiples } from '../figure'
import type { AxisText } from './axisText'

interface DesignCurve {
  readonly name: string
  /** Displacement from the working point, core units, and the excess loss there, dB. */
  readonly displacements: Float64Array
  readonly excessDb: Float64Array
}

const COLUMNS = 4
const EXCESS_SHOWN_DB = 3

/** Widest of the displacements at which a curve is still below the shown excess, so that all fit one scale. */
function commonReach(curves: readonly DesignCurve[], perCore: number): number {
  let reach = 0
  for (const curve of curves) {
    for (const [i, at] of curve.displacements.entries()) {
      if ((curve.excessDb[i] ?? 0) <= EXCESS_SHOWN_DB) reach = Math.max(reach, Math.abs(at) * perCore)
    }
  }
  return reach || 1
}

function curveChart(curve: DesignCurve, reach: number, text: AxisText): Chart {
  return chart(
    { title: '', unit: text.unit, from: -reach, to: reach, digits: 2 },
    { title: 'Excess loss', unit: 'dB', from: 0, to: EXCESS_SHOWN_DB, digits: 2 },
    [
      {
        kind: 'line',
        name: '',
        x: curve.displacements.map((at) => at * text.perCore),
        y: curve.excessDb,
        tone: 'accent',
      },
    ],
  )
}

export function toleranceMultiplesFigure(curves: readonly DesignCurve[], text: AxisText): Figure<Multiples> {
  const reach = commonReach(curves, text.perCore)
  return {
    id: 'tolerance-by-design',
    sentence: `${text.name} from the working point, all designs on one scale: the flatter the curve, the wider the alignment tolerance.`,
    picture: {
      kind: 'multiples',
      columns: COLUMNS,
      charts: curves.map((curve) => ({ name: curve.name, chart: curveChart(curve, reach, text) })),
    },
    table: {
      columns: [
        { label: 'Design' },
        { label: text.name, unit: text.unit },
        { label: 'Excess loss', unit: 'dB' },
      ],
      rows: curves.flatMap((curve) =>
        Array.from(curve.displacements, (at, i) => [curve.name, at * text.perCore, curve.excessDb[i] ?? 0]),
      ),
    },
  }
}
