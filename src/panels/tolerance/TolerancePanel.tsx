// What misalignment costs: the room on each axis, the curve of a chosen one, and the map over two.

import { useDeferredValue, useId, useMemo, useState } from 'react'
import type { JointView } from '../../analysis/evaluation'
import { lossCurve, toleranceWindows } from '../../analysis/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/toleranceMap'
import { coreValue } from '../../model/quantity'
import type { Requirements } from '../../model/requirements'
import { jointEfficiency, lossDb, MISALIGNMENT_AXES, type MisalignmentAxis } from '../../optics/index'
import { lossCurveFigure } from '../../plots/lossCurveFigure'
import { lossMapFigure } from '../../plots/lossMapFigure'
import { Plot } from '../../plots/Plot'
import { AXIS_TEXT } from './axisText'
import { usePlotTheme } from './plotTheme'
import { WindowTable } from './WindowTable'
import './tolerance.css'

const CURVE_POINTS = 201
const MAP_POINTS = 61
const PLOT_HEIGHT_PX = 320

function AxisChoice({
  label,
  axis,
  others,
  onChoose,
}: {
  readonly label: string
  readonly axis: MisalignmentAxis
  readonly others: readonly MisalignmentAxis[]
  readonly onChoose: (axis: MisalignmentAxis) => void
}) {
  const id = useId()
  return (
    <span className="axis-choice">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={axis}
        onChange={(event) => {
          const chosen = MISALIGNMENT_AXES.find((each) => each === event.target.value)
          if (chosen !== undefined) onChoose(chosen)
        }}
      >
        {MISALIGNMENT_AXES.filter((each) => !others.includes(each)).map((each) => (
          <option key={each} value={each}>
            {AXIS_TEXT[each].name}
          </option>
        ))}
      </select>
    </span>
  )
}

function stationHalf(station: Requirements['station'], axis: MisalignmentAxis): number {
  if (axis === 'gapUm') return coreValue(station.axial, 'lateralAccuracy')
  if (axis === 'offsetXUm' || axis === 'offsetYUm') return coreValue(station.lateral, 'lateralAccuracy')
  return coreValue(station.angular, 'angularAccuracy')
}

export function TolerancePanel({
  view,
  station,
}: {
  readonly view: JointView
  readonly station: Requirements['station']
}) {
  const [x, setX] = useState<MisalignmentAxis>('offsetXUm')
  const [y, setY] = useState<MisalignmentAxis>('offsetYUm')
  const theme = usePlotTheme()
  const { joint } = view

  // While a number is dragged the map moves in every frame; table and curve follow when there is time.
  const settled = useDeferredValue(joint)
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
      lossMapFigure(
        toleranceMap(joint, x, y, MAP_POINTS),
        AXIS_TEXT[x],
        AXIS_TEXT[y],
        { halfX: stationHalf(station, x), halfY: stationHalf(station, y) },
        theme,
      ),
    [joint, x, y, station, theme],
  )

  return (
    <section aria-label="Tolerance" className="tolerance">
      <h2>Tolerance</h2>
      <WindowTable windows={windows} />
      <p>
        <AxisChoice label="Curve and map along" axis={x} others={[y]} onChoose={setX} />{' '}
        <AxisChoice label="map against" axis={y} others={[x]} onChoose={setY} />
      </p>
      <div className="plots">
        {curve !== null && <Plot figure={curve} heightPx={PLOT_HEIGHT_PX} />}
        <Plot figure={map} heightPx={PLOT_HEIGHT_PX} />
      </div>
    </section>
  )
}
