// What misalignment costs: the room on each axis, the curve of a chosen one, and the map over two.

import { useMemo, useState } from 'react'
import type { JointView } from '../../analysis/results/evaluation'
import { lossCurve, toleranceWindows } from '../../analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { jointEfficiency, lossDb, type MisalignmentAxis } from '../../optics/index'
import { lossCurveFigure } from '../../plots/lossCurveFigure'
import { lossMapFigure } from '../../plots/lossMapFigure'
import { Plot } from '../../plots/Plot'
import { useAfterFrame } from '../../plots/useAfterFrame'
import { AXIS_TEXT } from '../../report/figures/axisText'
import { usePlotTheme } from '../../ui/figures/plotTheme'
import { AxisChoice, stationHalf } from './AxisChoice'
import { LossMapPlot } from './LossMapPlot'
import { ToleranceFrame } from './ToleranceFrame'
import { WindowTable } from './WindowTable'
import './tolerance.css'

const CURVE_POINTS = 201
const MAP_POINTS = 61
const PLOT_HEIGHT_PX = 260

export function TolerancePanel({
  view,
  station,
  name,
}: {
  readonly view: JointView
  readonly name: JointName | undefined
  readonly station: Requirements['station']
}) {
  const [x, setX] = useState<MisalignmentAxis>('offsetXUm')
  const [y, setY] = useState<MisalignmentAxis>('offsetYUm')
  const theme = usePlotTheme()
  const { joint } = view

  // While a number is dragged the map moves in every frame; table and curve follow when there is time.
  const settled = useAfterFrame(joint)
  const windows = useMemo(() => toleranceWindows(settled), [settled])

  const curve = useMemo(() => {
    const [from, to] = axisRange(settled, x)
    const window = windows.find((each) => each.axis === x)
    if (window === undefined) return null
    const here = lossDb(jointEfficiency(settled))
    return lossCurveFigure(lossCurve(settled, x, from, to, CURVE_POINTS), window, here, AXIS_TEXT[x], theme)
  }, [settled, windows, x, theme])
  const map = useMemo(
    () =>
      lossMapFigure(toleranceMap(joint, x, y, MAP_POINTS), AXIS_TEXT[x], AXIS_TEXT[y], {
        halfX: stationHalf(station, x),
        halfY: stationHalf(station, y),
      }),
    [joint, x, y, station],
  )

  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance">
      <ToleranceFrame
        windows={windows}
        map={(heightPx) => <LossMapPlot figure={map} heightPx={heightPx} />}
        choices={
          <>
            <AxisChoice label="Across" axis={x} other={y} onChoose={setX} />
            <AxisChoice label="Up" axis={y} other={x} onChoose={setY} />
          </>
        }
      >
        {curve !== null && <Plot figure={curve} heightPx={PLOT_HEIGHT_PX} />}
        <WindowTable windows={windows} />
      </ToleranceFrame>
    </section>
  )
}
