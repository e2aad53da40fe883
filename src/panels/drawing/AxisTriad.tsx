// The axes of a view in its lower left corner; the third one points out of the picture or into it.

const ARM_PX = 16
const HEAD_PX = 4

export function AxisTriad({
  axis,
  leftPx,
  bottomPx,
}: {
  /** The axis that points up. z points right; the third follows from a right-handed frame. */
  readonly axis: 'x' | 'y'
  readonly leftPx: number
  readonly bottomPx: number
}) {
  // x, y, z right-handed: with z right and y up, x points into the picture; with z right and x up, y points out of it.
  const third = axis === 'y' ? 'x' : 'y'
  return (
    <g className="drawn-triad" transform={`translate(${leftPx} ${bottomPx})`}>
      <path
        d={`M0 0H${ARM_PX}m${-HEAD_PX} ${-HEAD_PX / 2}l${HEAD_PX} ${HEAD_PX / 2}l${-HEAD_PX} ${HEAD_PX / 2}M0 0V${-ARM_PX}m${-HEAD_PX / 2} ${HEAD_PX}l${HEAD_PX / 2} ${-HEAD_PX}l${HEAD_PX / 2} ${HEAD_PX}`}
      />
      <circle r={3.5} />
      {axis === 'x' ? (
        <circle r={1} className="drawn-triad-dot" />
      ) : (
        <path d="M-2.5 -2.5L2.5 2.5M-2.5 2.5L2.5 -2.5" />
      )}
      <text x={ARM_PX + 4} y={4}>
        z
      </text>
      <text x={HEAD_PX + 1} y={-ARM_PX + 5}>
        {axis}
      </text>
      <text x={-7} y={4} textAnchor="end">
        {third}
      </text>
    </g>
  )
}
