// What misalignment costs through the real lenses of a relay. They are traced off the page; until they are, for the very joint that is shown, the
// paraxial image holds their place, and it moves with every drag.

import { useMemo } from 'react'
import type { RelayFields } from '../../analysis/field/fit/relayAxes'
import type { JointView } from '../../analysis/results/evaluation'
import { pivotText } from '../../analysis/tolerance/viewWindows'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { LENS_NAMES } from '../../figures/loss/besideNames'
import { lossCurveFigure } from '../../figures/loss/lossCurve'
import { lossMapFigure } from '../../figures/loss/lossMap'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { Progress } from '../../ui/jobs/Progress'
import { useFieldJob } from '../../ui/jobs/useFieldJob'
import { stationHalf } from './AxisChoice'
import { ToleranceView } from './ToleranceView'
import { useGaussianTolerance } from './useGaussianTolerance'
import { useShownAxes } from './useShownAxes'
import './tolerance.css'

export function RelayTolerancePanel({
  designId,
  view,
  lenses,
  station,
  name,
}: {
  /** The design whose joint a click on the map moves. */
  readonly designId: string
  readonly view: JointView
  readonly lenses: RelayFields
  readonly name: JointName | undefined
  readonly station: Requirements['station']
}) {
  const axes = useShownAxes()
  const { x, y } = axes
  const image = useGaussianTolerance(view, axes, station)
  const { line, plane } = image
  const { answer, message, progress, busy } = useFieldJob('relayTolerance', {
    lenses,
    joint: view.joint,
    x,
    y,
  })
  const traced = busy ? null : answer
  const real = useMemo(() => {
    const window = traced?.windows.find((each) => each.axis === x)
    if (traced === null || window === undefined) return null
    const box = { halfX: stationHalf(station, x), halfY: stationHalf(station, y) }
    const [acrossText, upText] = [AXIS_TEXT[x], AXIS_TEXT[y]]
    return {
      windows: traced.windows,
      figures: {
        curve: lossCurveFigure(traced.curve, window, traced.map.hereDb, acrossText, line, LENS_NAMES),
        map: lossMapFigure('loss-map', traced.map, acrossText, upText, box, plane, LENS_NAMES),
      },
    }
  }, [traced, line, plane, x, y, station])
  const { windows, figures } = real ?? image
  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance" aria-busy={busy}>
      {message !== '' && <p className="complaint">{message}</p>}
      <ToleranceView
        axes={axes}
        windows={windows}
        figures={figures}
        target={{ designId, elementId: view.elementId, joint: image.joint }}
        about={pivotText(view)}
        isProvisional={busy}
        note={
          <>
            <p className={busy ? 'provisional' : undefined}>
              {busy ? 'Provisional: paraxial' : real === null ? 'Paraxial image' : 'Real lenses, by rays'}
            </p>
            <Progress label="Tracing rays" share={progress} />
          </>
        }
      />
    </section>
  )
}
