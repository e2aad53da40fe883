// How far the fibre must be turned so that its refracted beam meets the chip's mode.

import type { JointView } from '../../analysis/evaluation'

const DEG_PER_RAD = 180 / Math.PI

export function PointingNote({ view }: { readonly view: JointView }) {
  const axes = [
    ['x', view.pointingXRad],
    ['y', view.pointingYRad],
  ] as const
  return axes
    .filter(([, rad]) => rad !== 0)
    .map(([axis, rad]) => (
      <p key={axis} className="pointing">
        By Snell&rsquo;s law the fibre&rsquo;s axis is turned by{' '}
        <strong>{(rad * DEG_PER_RAD).toFixed(2).replace('-', '−')}°</strong> in {axis} against the
        chip&rsquo;s.
      </p>
    ))
}
