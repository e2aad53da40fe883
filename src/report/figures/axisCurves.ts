// Loss of a joint against offset, one curve an axis.

import type { JointView } from '../../analysis/results/evaluation'
import { lossCurve } from '../../analysis/tolerance/toleranceCurve'
import { axisRange } from '../../analysis/tolerance/toleranceMap'
import type { FigureBlock } from '../document/blocks'
import { lossCell } from '../document/cells'
import { chart, cross, polyline } from './chart'
import { figure, plotted } from './figure'

const POINTS = 81
const SHOWN_DB = 6

/** Offsets along x and y over one reach, from the working point. */
export function axisCurves({ elementId, joint }: JointView, name: string): FigureBlock {
  const axes = ['offsetXUm', 'offsetYUm'] as const
  const reach = Math.max(...axes.map((axis) => axisRange(joint, axis)[1] - joint[axis]))
  const curves = axes.map((axis) => lossCurve(joint, axis, joint[axis] - reach, joint[axis] + reach, POINTS))
  const [x, y] = curves
  const here = x?.lossesDb[(POINTS - 1) / 2] ?? 0
  const least = Math.min(...curves.flatMap(({ lossesDb }) => [...lossesDb]))
  const top = Math.max(least, here) + SHOWN_DB
  const moves = Float64Array.from({ length: POINTS }, (_, i) => reach * ((2 * i) / (POINTS - 1) - 1))
  const classes = ['chart-curve', 'chart-curve-2'] as const
  const drawing = chart(
    {
      x: { from: -reach, to: reach, title: 'Displacement from the working point, µm' },
      y: { from: Math.max(0, Math.floor(least - 0.5)), to: top, title: 'Loss of the joint, dB' },
    },
    (places) => [
      ...curves.map(({ lossesDb }, i) => {
        const shown = [...lossesDb]
          .map((loss, k) => ({ loss, move: moves[k] ?? 0 }))
          .filter(({ loss }) => loss <= top)
        return polyline(
          shown.map(({ move }) => move),
          shown.map(({ loss }) => loss),
          places,
          classes[i] ?? 'chart-curve',
        )
      }),
      cross(places.x(0), places.y(here)),
    ],
  )
  return figure(
    `curves-${elementId}`,
    `Loss of ${name} over offset, along x (full line) and y (dashed): ${lossCell(here).text} dB at the working point.`,
    drawing,
    [
      { label: 'Displacement', unit: 'µm' },
      { label: 'Loss along x', unit: 'dB' },
      { label: 'Loss along y', unit: 'dB' },
    ],
    Array.from(moves, (move, i) => [
      plotted(move),
      plotted(x?.lossesDb[i] ?? 0),
      plotted(y?.lossesDb[i] ?? 0),
    ]),
  )
}
