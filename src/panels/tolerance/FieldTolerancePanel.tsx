// What misalignment costs by the fields of a joint, with the Gaussian result as a thin line.

import { useMemo } from 'react'
import type { JointFieldView, JointView } from '../../analysis/results/evaluation'
import { lossCurve } from '../../analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../analysis/tolerance/toleranceMap'
import { pivotText } from '../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { lossCurveFigure } from '../../figures/loss/lossCurve'
import { lossMapFigure } from '../../figures/loss/lossMap'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { fixedText } from '../../numerics/numberText'
import { Progress } from '../../ui/jobs/Progress'
import { useFieldJob } from '../../ui/jobs/useFieldJob'
import { stationHalf } from './AxisChoice'
import { ToleranceView } from './ToleranceView'
import { useShownAxes } from './useShownAxes'
import './tolerance.css'

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
  const axes = useShownAxes()
  const { x, y } = axes
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

  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance" aria-busy={busy}>
      <Progress label="Computing the fields" share={progress} />
      {message !== '' && <p className="complaint">{message}</p>}
      {answer !== null && (
        <ToleranceView
          axes={axes}
          windows={answer.windows}
          figures={figures}
          target={{ designId, elementId: view.elementId, joint }}
          about={pivotText(view)}
          note={
            <p>
              Field overlap: {field.nearName} to {field.farName}; numerical error at the working point:{' '}
              {fixedText(Math.max(answer.errorDb, 1e-4), 4)} dB.
            </p>
          }
        />
      )}
    </section>
  )
}
