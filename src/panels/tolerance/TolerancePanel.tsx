// Excess loss by misalignment: the map over two axes, the curve of one, the alignment tolerance of each.

import { useMemo, useState } from 'react'
import type { JointView } from '../../analysis/results/evaluation'
import { lossCurve, toleranceWindows } from '../../analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { lossCurveFigure } from '../../figures/loss/lossCurve'
import { lossMapFigure } from '../../figures/loss/lossMap'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { jointEfficiency, lossDb, type MisalignmentAxis } from '../../optics/index'
import { FigureView } from '../../ui/figures/FigureView'
import { useAfterFrame } from '../../ui/figures/useAfterFrame'
import { AxisChoice, stationHalf } from './AxisChoice'
import { OneDbList } from './OneDbList'
import { WindowTable } from './WindowTable'
import { moveWorkingPoint } from './workingPoint'
import './tolerance.css'

const CURVE_POINTS = 201
const MAP_POINTS = 61
const MAP_HEIGHT_PX = 290
const CURVE_HEIGHT_PX = 250
/** A press of an arrow key moves the working point by this part of the map. */
const KEY_STEPS = 60

export function TolerancePanel({
  designId,
  view,
  station,
  name,
}: {
  /** The design whose gap a click on the map moves; null where the joint cannot be moved. */
  readonly designId: string | null
  readonly view: JointView
  readonly name: JointName | undefined
  readonly station: Requirements['station']
}) {
  const [x, setX] = useState<MisalignmentAxis>('offsetXUm')
  const [y, setY] = useState<MisalignmentAxis>('offsetYUm')
  const { joint } = view

  // While a number is dragged the map moves in every frame; table and curve follow when there is time.
  const settled = useAfterFrame(joint)
  const windows = useMemo(() => toleranceWindows(settled), [settled])

  const curve = useMemo(() => {
    const [from, to] = axisRange(settled, x)
    const window = windows.find((each) => each.axis === x)
    if (window === undefined) return null
    const here = lossDb(jointEfficiency(settled))
    return lossCurveFigure(lossCurve(settled, x, from, to, CURVE_POINTS), window, here, AXIS_TEXT[x])
  }, [settled, windows, x])
  const map = useMemo(
    () =>
      lossMapFigure('loss-map', toleranceMap(joint, x, y, MAP_POINTS), AXIS_TEXT[x], AXIS_TEXT[y], {
        halfX: stationHalf(station, x),
        halfY: stationHalf(station, y),
      }),
    [joint, x, y, station],
  )

  const [perX, perY] = [AXIS_TEXT[x].perCore, AXIS_TEXT[y].perCore]
  const { picture } = map
  const span = (axis: { readonly from: number; readonly to: number } | undefined) =>
    Math.abs((axis?.to ?? 1) - (axis?.from ?? 0)) / KEY_STEPS
  const movable =
    designId === null
      ? undefined
      : {
          at: { x: joint[x] * perX, y: joint[y] * perY },
          step: { x: span(picture.x), y: span(picture.panes[0]?.y) },
          onMove: (to: { readonly x: number; readonly y: number }) =>
            moveWorkingPoint(designId, view.elementId, joint, [
              [x, to.x / perX],
              [y, to.y / perY],
            ]),
        }

  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance depth-columns">
      <div>
        <FigureView
          live
          figure={map}
          heightPx={MAP_HEIGHT_PX}
          beside={<OneDbList windows={windows} />}
          {...(movable !== undefined && { movable })}
        />
        <div className="axis-choices">
          <AxisChoice label="Curve and map, x-axis" axis={x} other={y} onChoose={setX} />
          <AxisChoice label="Map, y-axis" axis={y} other={x} onChoose={setY} />
        </div>
      </div>
      <div>
        {curve !== null && <FigureView figure={curve} heightPx={CURVE_HEIGHT_PX} />}
        <WindowTable windows={windows} />
      </div>
    </section>
  )
}
