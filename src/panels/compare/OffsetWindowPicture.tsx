// Excess loss over a lateral offset at the chip, x solid and y dashed, as a small picture.

import type { OffsetExcess } from '../../analysis/compare/offsetExcess'
import { px } from '../../figures/render/svgShapes'

const WIDTH = 160
const HEIGHT = 56
const TOP = 3
/** Excess loss at the upper edge of the picture. */
export const WINDOW_TOP_DB = 3

const heightOf = (excessDb: number) =>
  HEIGHT - TOP - (Math.max(0, Math.min(WINDOW_TOP_DB, excessDb)) / WINDOW_TOP_DB) * (HEIGHT - 2 * TOP)

function curve(excessDb: Float64Array): string {
  return Array.from(excessDb, (value, i) => {
    const x = (WIDTH * i) / (excessDb.length - 1)
    return `${i === 0 ? 'M' : 'L'}${px(x)} ${px(heightOf(value))}`
  }).join('')
}

export function OffsetWindowPicture({
  excess,
  reachUm,
  label,
}: {
  readonly excess: OffsetExcess
  readonly reachUm: number
  readonly label: string
}) {
  const grid = [1, 2].map((db) => `M0 ${px(heightOf(db))}H${WIDTH}`).join('')
  const half = Math.max(1, Math.round(reachUm / 2))
  const positions = [-half, 0, half].map((um) => (WIDTH * (um + reachUm)) / (2 * reachUm))
  const uprights = positions.map((x) => `M${px(x)} ${TOP}V${HEIGHT - TOP}`).join('')
  return (
    <svg
      className="offset-window"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={label}
    >
      <path className="offset-window-grid" d={grid + uprights} />
      <path className="offset-window-x" d={curve(excess.x)} />
      <path className="offset-window-y" d={curve(excess.y)} />
    </svg>
  )
}
