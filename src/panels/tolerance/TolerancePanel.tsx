// Excess loss by misalignment: the map over two axes, the curve of one, the alignment tolerance of each.

import { useMemo, useState } from 'react'
import type { JointView } from '../../analysis/results/evaluation'
import { lossCurve } from '../../analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { pivotText, seenJoint, viewWindows } from '../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { lossCurveFigure } from '../../figures/loss/lossCurve'
import { lossMapFigure, withoutStation } from '../../figures/loss/lossMap'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { jointEfficiency, lossDb, type MisalignmentAxis } from '../../optics/index'
import { FigureView } from '../../ui/figures/FigureView'
import { useAfterFrame } from '../../ui/figures/useAfterFrame'
import { WhenSeen } from '../../ui/figures/WhenSeen'
import { AxisChoice, stationHalf } from './AxisChoice'
import { ToleranceFrame } from './ToleranceFrame'
import { WindowTable } from './WindowTable'
import { movableOn } from './workingPoint'
import './tolerance.css'

const CURVE_POINTS = 201
const MAP_POINTS = 61

export function TolerancePanel({
  designId,
  view,
  station,
  name,
}: {
  /** The design whose joint a click on the map moves. */
  readonly designId: string
  readonly view: JointView
  readonly name: JointName | undefined
  readonly station: Requirements['station']
}) {
  const [x, setX] = useState<MisalignmentAxis>('offsetXUm')
  const [y, setY] = useState<MisalignmentAxis>('offsetYUm')
  const joint = useMemo(() => seenJoint(view, x, y), [view, x, y])

  // While a number is dragged the map moves in every frame; table and curve follow when there is time.
  const settledView = useAfterFrame(view)
  const settled = useMemo(() => seenJoint(settledView, x), [settledView, x])
  const windows = useMemo(() => viewWindows(settledView), [settledView])

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

  const target = { designId, elementId: view.elementId, joint }

  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance">
      <ToleranceFrame
        windows={windows}
        map={(heightPx, terse) => (
          <FigureView
            live
            figure={terse ? withoutStation(map) : map}
            heightPx={heightPx}
            movable={movableOn(map.picture, target, x, y)}
          />
        )}
        choices={
          <>
            <AxisChoice label="Horizontal axis" axis={x} other={y} onChoose={setX} />
            <AxisChoice label="Vertical axis" axis={y} other={x} onChoose={setY} />
          </>
        }
      >
        {(curvePx) => (
          <>
            <WhenSeen heightPx={curvePx}>
              {curve !== null && (
                <FigureView
                  live
                  figure={curve}
                  heightPx={curvePx}
                  movable={movableOn(curve.picture, target, x, null)}
                />
              )}
            </WhenSeen>
            <WindowTable windows={windows} about={pivotText(view)} />
          </>
        )}
      </ToleranceFrame>
    </section>
  )
}
