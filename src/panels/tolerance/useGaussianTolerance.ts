// The tolerance of a joint of Gaussians, of a relay that of the paraxial image, at once: while a number is dragged the map moves in every frame;
// table and curve follow when there is time.

import { useMemo } from 'react'
import type { JointView } from '../../analysis/results/evaluation'
import { lossCurve } from '../../analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { seenJoint, viewWindows } from '../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { lossCurveFigure } from '../../figures/loss/lossCurve'
import { lossMapFigure } from '../../figures/loss/lossMap'
import type { Requirements } from '../../model/schema/requirements'
import { jointEfficiency, lossDb } from '../../optics/index'
import { useAfterFrame } from '../../ui/figures/useAfterFrame'
import { stationHalf } from './AxisChoice'
import type { ShownAxes } from './useShownAxes'

const CURVE_POINTS = 201
const MAP_POINTS = 61

export function useGaussianTolerance(
  view: JointView,
  { x, y }: Pick<ShownAxes, 'x' | 'y'>,
  station: Requirements['station'],
) {
  const joint = useMemo(() => seenJoint(view, x, y), [view, x, y])
  const settledView = useAfterFrame(view)
  const settled = useMemo(() => seenJoint(settledView, x), [settledView, x])
  const windows = useMemo(() => viewWindows(settledView), [settledView])
  const line = useMemo(() => {
    const [from, to] = axisRange(settled, x)
    return lossCurve(settled, x, from, to, CURVE_POINTS)
  }, [settled, x])
  const curve = useMemo(() => {
    const window = windows.find((each) => each.axis === x)
    return window === undefined
      ? null
      : lossCurveFigure(line, window, lossDb(jointEfficiency(settled)), AXIS_TEXT[x])
  }, [settled, line, windows, x])
  const plane = useMemo(() => toleranceMap(joint, x, y, MAP_POINTS), [joint, x, y])
  const map = useMemo(
    () =>
      lossMapFigure('loss-map', plane, AXIS_TEXT[x], AXIS_TEXT[y], {
        halfX: stationHalf(station, x),
        halfY: stationHalf(station, y),
      }),
    [plane, x, y, station],
  )
  return { joint, windows, figures: { map, curve }, line, plane }
}
