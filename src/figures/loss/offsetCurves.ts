// Loss of a joint against offset, both axes over one reach from the working point.

import { displacedLosses } from '../../analysis/field/displacedLosses'
import type { Displacements } from '../../analysis/field/fit/knownFits'
import type { JointView } from '../../analysis/results/evaluation'
import { axisRange } from '../../analysis/tolerance/toleranceMap'
import { fixedText } from '../../numerics/numberText'
import type { GaussianJoint } from '../../optics/index'
import { along, lossAxis } from '../axes'
import { type Chart, chart } from '../chart'
import type { Figure } from '../figure'

const POINTS = 81
/** Losses beyond this above the working point are omitted. */
const SHOWN_DB = 6

const AXES = ['offsetXUm', 'offsetYUm'] as const

const reachUm = (joint: GaussianJoint) =>
  Math.max(...AXES.map((axis) => axisRange(joint, axis)[1] - joint[axis]))

/** The two lines of displacements along which a joint is drawn, x first. */
export function offsetLines(joint: GaussianJoint): readonly Displacements[] {
  const reach = reachUm(joint)
  return AXES.map((axis) => [{ axis, from: joint[axis] - reach, to: joint[axis] + reach, count: POINTS }])
}

/** By Gaussians, unless the losses along `offsetLines` are given. */
export function offsetCurvesFigure(
  { elementId, joint }: JointView,
  name: string,
  lossesDb: readonly Float64Array[] = displacedLosses(joint, undefined, offsetLines(joint)).lossesDb,
): Figure<Chart> {
  const reach = reachUm(joint)
  const [inX, inY] = lossesDb
  const moves = Float64Array.from({ length: POINTS }, (_, i) => reach * ((2 * i) / (POINTS - 1) - 1))
  const losses = [inX ?? new Float64Array(0), inY ?? new Float64Array(0)] as const
  const here = losses[0][(POINTS - 1) / 2] ?? 0
  const top = Math.max(Math.min(...losses[0], ...losses[1]), here) + SHOWN_DB
  const shown = losses.map((list) => Array.from(list, (loss) => (loss <= top ? loss : null)))
  return {
    id: `curves-${elementId}`,
    sentence: `Coupling loss of ${name} against offset along x (full line) and y (dashed): ${fixedText(here, 2)} dB at the working point.`,
    picture: chart(
      along('Displacement from the working point', 'µm', moves),
      lossAxis('Coupling loss', ...shown),
      [
        { kind: 'line', name: 'along x', x: moves, y: shown[0] ?? [], tone: 'accent' },
        {
          kind: 'line',
          name: 'along y',
          x: moves,
          y: shown[1] ?? [],
          tone: 'ink',
          dash: 'dash',
          weight: 'normal',
        },
        {
          kind: 'points',
          name: 'working point',
          x: [0],
          y: [here],
          tone: 'ink',
          mark: 'cross',
          sizePx: 12,
          legend: false,
        },
      ],
    ),
    table: {
      columns: [
        { label: 'Displacement', unit: 'µm' },
        { label: 'Loss along x', unit: 'dB' },
        { label: 'Loss along y', unit: 'dB' },
      ],
      rows: Array.from(moves, (move, i) => [move, losses[0][i] ?? 0, losses[1][i] ?? 0]),
    },
  }
}
