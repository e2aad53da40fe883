// What misalignment costs by the fields of a joint, with the Gaussian result as a thin line.

import { useMemo, useState } from 'react'
import type { JointFieldView, JointView } from '../../analysis/results/evaluation'
import { lossCurve } from '../../analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { pivotText } from '../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { lossCurveFigure } from '../../figures/loss/lossCurve'
import { lossMapFigure, withoutStation } from '../../figures/loss/lossMap'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { fixedText } from '../../numerics/numberText'
import type { MisalignmentAxis } from '../../optics/index'
import { FigureView } from '../../ui/figures/FigureView'
import { WhenSeen } from '../../ui/figures/WhenSeen'
import { Progress } from '../../ui/jobs/Progress'
import { useFieldJob } from '../../ui/jobs/useFieldJob'
import { AxisChoice, stationHalf } from './AxisChoice'
import { ToleranceFrame } from './ToleranceFrame'
import { WindowTable } from './WindowTable'
import { movableOn } from './workingPoint'

const CURVE_POINTS = 121
const MAP_POINTS = 61

export function FieldTolerancePanel({
  designId,
  view,
  field,
  station,
  name,
}: {
  /** The design whose joint a click on the map moves. */
  readonly designId: string
  readonly view: JointView
  readonly field: JointFieldView
  readonly station: Requirements['station']
  readonly name: JointName | undefined
}) {
  const { joint } = view
  const [x, setX] = useState<MisalignmentAxis>('offsetXUm')
  const [y, setY] = useState<MisalignmentAxis>('offsetYUm')
  const { answer, message, progress, busy } = useFieldJob('tolerance', { spec: field.spec, joint, x, y })

  const figures = useMemo(() => {
    // While an answer is of other axes, its figures would have the wrong titles.
    if (answer === null || answer.axes.x !== x || answer.axes.y !== y) return null
    const window = answer.windows.find((each) => each.axis === x)
    if (window === undefined) return null
    const [from, to] = axisRange(answer.joint, x)
    const gaussian = lossCurve(answer.joint, x, from, to, CURVE_POINTS)
    const box = { halfX: stationHalf(station, x), halfY: stationHalf(station, y) }
    return {
      curve: lossCurveFigure(answer.curve, window, answer.map.hereDb, AXIS_TEXT[x], gaussian),
      map: lossMapFigure(
        'loss-map',
        answer.map,
        AXIS_TEXT[x],
        AXIS_TEXT[y],
        box,
        toleranceMap(answer.joint, x, y, MAP_POINTS),
      ),
    }
  }, [answer, x, y, station])

  const target = { designId, elementId: view.elementId, joint }
  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance" aria-busy={busy}>
      <Progress label="Computing the fields" share={progress} />
      {message !== '' && <p className="complaint">{message}</p>}
      {answer !== null && (
        <ToleranceFrame
          windows={answer.windows}
          map={(heightPx, terse) =>
            figures === null ? null : (
              <FigureView
                live
                figure={terse ? withoutStation(figures.map) : figures.map}
                heightPx={heightPx}
                movable={movableOn(figures.map.picture, target, x, y)}
              />
            )
          }
          choices={
            <>
              <AxisChoice label="Horizontal axis" axis={x} other={y} onChoose={setX} />
              <AxisChoice label="Vertical axis" axis={y} other={x} onChoose={setY} />
            </>
          }
          note={
            <p>
              Field overlap: {field.nearName} to {field.farName}; numerical error at the working point:{' '}
              {fixedText(Math.max(answer.errorDb, 1e-4), 4)} dB.
            </p>
          }
        >
          {(curvePx) => (
            <>
              <WhenSeen heightPx={curvePx}>
                {figures !== null && (
                  <FigureView
                    live
                    figure={figures.curve}
                    heightPx={curvePx}
                    movable={movableOn(figures.curve.picture, target, x, null)}
                  />
                )}
              </WhenSeen>
              <WindowTable windows={answer.windows} about={pivotText(view)} />
            </>
          )}
        </ToleranceFrame>
      )}
    </section>
  )
}
