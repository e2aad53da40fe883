// Excess loss by misalignment of a joint of Gaussians: the map over two axes, the curve of one, the alignment tolerance of each.

import type { JointView } from '../../analysis/results/evaluation'
import { pivotText } from '../../analysis/tolerance/viewWindows'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { Requirements } from '../../model/schema/requirements'
import { ToleranceView } from './ToleranceView'
import { useGaussianTolerance } from './useGaussianTolerance'
import { useShownAxes } from './useShownAxes'
import './tolerance.css'

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
  const axes = useShownAxes()
  const { joint, windows, figures } = useGaussianTolerance(view, axes, station)
  return (
    <section aria-label={ofJoint('Tolerance', name)} className="tolerance">
      <ToleranceView
        axes={axes}
        windows={windows}
        figures={figures}
        target={{ designId, elementId: view.elementId, joint }}
        about={pivotText(view)}
      />
    </section>
  )
}
