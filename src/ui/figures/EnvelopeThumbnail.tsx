// The mode's envelope along a path as a small picture. Heights are compressed, so that a collimated beam and a facet's
// mode fit into one strip.

import type { OutlinePoint } from '../../analysis/compare/modeOutline'

const WIDTH = 160
const HEIGHT = 44
const MIDDLE = HEIGHT / 2
/** Diameter that fills the strip, um, and the power by which heights are compressed. */
const FULL_UM = 36
const COMPRESSED = 0.55

const halfOf = (mfdUm: number) => Math.min(1, (mfdUm / FULL_UM) ** COMPRESSED) * (MIDDLE - 3)

/** Upper edge from left to right; `sign` -1 is the upper, 1 the lower one. */
function edge(points: readonly OutlinePoint[], sign: -1 | 1): string {
  return points
    .map(({ at, mfdUm }, i) => {
      const [x, y] = [at * WIDTH, MIDDLE + sign * halfOf(mfdUm)]
      const before = points[i - 1]
      if (before === undefined) return `M${x.toFixed(1)} ${y.toFixed(1)}`
      const bend = ((at + before.at) / 2) * WIDTH
      const from = MIDDLE + sign * halfOf(before.mfdUm)
      return `C${bend.toFixed(1)} ${from.toFixed(1)} ${bend.toFixed(1)} ${y.toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)}`
    })
    .join('')
}

export function EnvelopeThumbnail({
  points,
  label,
}: {
  readonly points: readonly OutlinePoint[]
  /** What the picture shows, in words. */
  readonly label: string
}) {
  const [upper, lower] = [edge(points, -1), edge(points.toReversed(), 1)]
  return (
    <svg
      className="thumbnail"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={label}
    >
      <path className="thumbnail-light" d={`${upper}${lower.replace('M', 'L')}Z`} />
      <path className="thumbnail-edge" d={`${upper}${edge(points, 1)}`} />
      <path className="thumbnail-axis" d={`M0 ${MIDDLE}H${WIDTH}`} />
    </svg>
  )
}
