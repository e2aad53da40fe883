// How far the emitting side must be turned so that its refracted beam meets the receiving side's mode.

import type { JointView } from '../../analysis/results/evaluation'
import type { JointName } from '../../model/designs/jointNames'

const DEG_PER_RAD = 180 / Math.PI

export function PointingNote({
  view,
  name,
}: {
  readonly view: JointView
  readonly name: JointName | undefined
}) {
  const axes = [
    ['x', view.pointingXRad],
    ['y', view.pointingYRad],
  ] as const
  const where = name === undefined || name.tag === '' ? '' : ` at ${name.tag}, ${name.between}`
  return axes
    .filter(([, rad]) => rad !== 0)
    .map(([axis, rad]) => (
      <p key={axis}>
        By Snell&rsquo;s law the fibre&rsquo;s axis is turned by{' '}
        <strong>{(rad * DEG_PER_RAD).toFixed(2).replace('-', '−')}°</strong> in {axis} against the
        chip&rsquo;s{where}.
      </p>
    ))
}
