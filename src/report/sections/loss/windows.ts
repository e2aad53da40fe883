// How far each axis of each joint may go, as a table, a curve and a map.

import { displacedLosses } from '../../../analysis/field/displacedLosses'
import { fieldWindows } from '../../../analysis/field/fieldWindows'
import type { JointView } from '../../../analysis/results/evaluation'
import { type AxisWindow, WINDOW_STEPS_DB } from '../../../analysis/tolerance/toleranceCurve'
import { axisSamples, mapOf } from '../../../analysis/tolerance/toleranceMap'
import { pivotText, seenJoint, viewWindows } from '../../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../../figures/loss/axisText'
import { lossMapFigure } from '../../../figures/loss/lossMap'
import { offsetCurvesFigure, offsetLines } from '../../../figures/loss/offsetCurves'
import { coreValue } from '../../../model/quantity/quantity'
import { type Block, type Cell, group, table, text, title } from '../../document/blocks'
import { fixedCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const BY_LENSES = 'Computed by rays through the real lenses of the relay.'
const BY_IMAGE =
  'Provisional: of the paraxial image, while rays through the real lenses of the relay are being computed.'
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

/** Curves and map over both offsets. */
function pictures(view: JointView, name: string, stationUm: number) {
  const joint = seenJoint(view, 'offsetXUm', 'offsetYUm')
  const [x, y] = [axisSamples(joint, 'offsetXUm', MAP_POINTS), axisSamples(joint, 'offsetYUm', MAP_POINTS)]
  const lines = offsetLines(joint)
  const { lossesDb, hereDb, isProvisional } = displacedLosses(joint, view.lenses, [...lines, [x, y]])
  const map = mapOf(joint, x, y, lossesDb[lines.length] ?? new Float64Array(x.count * y.count), hereDb)
  const box = { halfX: stationUm, halfY: stationUm }
  return {
    isProvisional,
    block: group(
      'beside',
      figureBlock(offsetCurvesFigure(view, name, lossesDb), CURVES_SIZE),
      figureBlock(
        lossMapFigure(`map-${view.elementId}`, map, AXIS_TEXT.offsetXUm, AXIS_TEXT.offsetYUm, box),
        MAP_SIZE,
      ),
    ),
  }
}

/** What the numbers are computed from, where it is more than Gaussian modes. */
function basis({ field, lenses }: JointView, isKnown: boolean, isPending: boolean): readonly Block[] {
  if (lenses !== undefined) return isPending ? [text(BY_IMAGE)] : isKnown ? [text(BY_LENSES)] : []
  return field === undefined ? [] : [text(isKnown ? BY_FIELDS : BY_GAUSSIANS)]
}

function build({ project, choice }: SheetContext): readonly Block[] {
  const joints = choice?.candidate.evaluation.joints ?? []
  return joints.flatMap((view, i) => {
    const name = joints.length === 1 ? 'the joint' : `joint ${i + 1}`
    const found = fieldWindows(view)
    const real = found === 'pending' ? null : found
    const { block, isProvisional } = pictures(
      view,
      name,
      coreValue(project.requirements.station.lateral, 'lateralAccuracy'),
    )
    const heading = joints.length === 1 ? [] : [title(`Joint ${i + 1}`)]
    return [
      ...heading,
      ...basis(view, real !== null, found === 'pending' || isProvisional),
      windowTable(view, name, real ?? viewWindows(view)),
      text(pivotText(view)),
      block,
    ]
  })
}

export const windowsSection: SectionSpec = { id: 'windows', title: 'Alignment tolerances and maps', build }
