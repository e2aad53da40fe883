// How far each axis of each joint may go, as a table, a curve and a map.

import { fieldWindows } from '../../../analysis/field/fieldWindows'
import type { JointView } from '../../../analysis/results/evaluation'
import { type AxisWindow, WINDOW_STEPS_DB } from '../../../analysis/tolerance/toleranceCurve'
import { toleranceMap } from '../../../analysis/tolerance/toleranceMap'
import { pivotText, seenJoint, viewWindows } from '../../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../../figures/loss/axisText'
import { lossMapFigure } from '../../../figures/loss/lossMap'
import { offsetCurvesFigure } from '../../../figures/loss/offsetCurves'
import { coreValue } from '../../../model/quantity/quantity'
import { type Block, type Cell, group, table, text, title } from '../../document/blocks'
import { fixedCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const BY_GAUSSIANS =
  'Based on Gaussian modes, not on the fields of this joint. On screen, alignment tolerances, curve and map are computed from the fields.'
const BY_FIELDS =
  'Alignment tolerances are computed from the fields of this joint, curve and map from Gaussian modes. On screen, curve and map are computed from the fields too.'

function side(mark: AxisWindow['marks'][number], which: 'below' | 'above', perCore: number): Cell {
  const distance = mark[which]
  return distance === null ? 'not reached' : fixedCell((which === 'below' ? -1 : 1) * distance * perCore, 2)
}

function windowTable(view: JointView, name: string, windows: readonly AxisWindow[]) {
  return table(
    `Alignment tolerance per axis of ${name}, from the working point`,
    [
      'Axis',
      'Unit',
      ...WINDOW_STEPS_DB.flatMap((excessDb) => [
        `${excessDb} dB, negative side`,
        `${excessDb} dB, positive side`,
      ]),
      'Local slope, dB per unit',
    ],
    windows.map((window) => {
      const { name: axisName, unit, perCore } = AXIS_TEXT[window.axis]
      return {
        mark: `window-${view.elementId}-${window.axis}`,
        cells: [
          axisName,
          unit,
          ...window.marks.flatMap((mark) => [side(mark, 'below', perCore), side(mark, 'above', perCore)]),
          fixedCell(window.slopeDbPerUnit / perCore, 3),
        ],
      }
    }),
  )
}

const MAP_POINTS = 41
const CURVES_SIZE = { widthPx: 420, heightPx: 230 }
const MAP_SIZE = { widthPx: 320, heightPx: 240 }

function offsetMap(view: JointView, stationUm: number) {
  const { elementId } = view
  const map = toleranceMap(seenJoint(view, 'offsetXUm', 'offsetYUm'), 'offsetXUm', 'offsetYUm', MAP_POINTS)
  const box = { halfX: stationUm, halfY: stationUm }
  const figure = lossMapFigure(`map-${elementId}`, map, AXIS_TEXT.offsetXUm, AXIS_TEXT.offsetYUm, box)
  return figureBlock(figure, MAP_SIZE)
}

function build({ project, choice }: SheetContext): readonly Block[] {
  const joints = choice?.candidate.evaluation.joints ?? []
  return joints.flatMap((view, i) => {
    const name = joints.length === 1 ? 'the joint' : `joint ${i + 1}`
    const found = fieldWindows(view)
    const real = found === 'pending' ? null : found
    const heading = joints.length === 1 ? [] : [title(`Joint ${i + 1}`)]
    return [
      ...heading,
      ...(view.field === undefined ? [] : [text(real === null ? BY_GAUSSIANS : BY_FIELDS)]),
      windowTable(view, name, real ?? viewWindows(view)),
      text(pivotText(view)),
      group(
        'beside',
        figureBlock(offsetCurvesFigure(view, name), CURVES_SIZE),
        offsetMap(view, coreValue(project.requirements.station.lateral, 'lateralAccuracy')),
      ),
    ]
  })
}

export const windowsSection: SectionSpec = { id: 'windows', title: 'Alignment tolerances and maps', build }
