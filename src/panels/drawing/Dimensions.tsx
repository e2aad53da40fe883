// Dimension lines of one view: the gap along z and the offset across it.

import { type Scale, transversePx, zPx } from './scale'

const TICK_PX = 5
const GAP_LINE_PX = 30
const OFFSET_LINE_PX = 34
const SHORTEST_OFFSET_PX = 2

export interface DimensionsProps {
  readonly axis: 'x' | 'y'
  readonly gapUm: number
  readonly offsetUm: number
  readonly scale: Scale
}

export function Dimensions({ axis, gapUm, offsetUm, scale }: DimensionsProps) {
  const facePx = zPx(scale, -gapUm)
  const chipPx = zPx(scale, 0)
  const axisPx = transversePx(scale, 0)
  const fibrePx = transversePx(scale, offsetUm)
  const offsetLinePx = facePx - OFFSET_LINE_PX
  return (
    <g className="drawn-dimension">
      <path
        d={`M${facePx} ${GAP_LINE_PX}H${chipPx}M${facePx} ${GAP_LINE_PX - TICK_PX}v${2 * TICK_PX}M${chipPx} ${GAP_LINE_PX - TICK_PX}v${2 * TICK_PX}`}
      />
      <text x={(facePx + chipPx) / 2} y={GAP_LINE_PX - 8} textAnchor="middle">
        {`gap ${gapUm.toFixed(2)} µm`}
      </text>
      {Math.abs(fibrePx - axisPx) > SHORTEST_OFFSET_PX && (
        <path
          d={`M${offsetLinePx} ${axisPx}V${fibrePx}M${offsetLinePx - TICK_PX} ${axisPx}h${2 * TICK_PX}M${offsetLinePx - TICK_PX} ${fibrePx}H${facePx}`}
        />
      )}
      <text x={offsetLinePx - TICK_PX - 4} y={(axisPx + fibrePx) / 2 + 4} textAnchor="end">
        {`${axis} ${offsetUm.toFixed(2)} µm`.replace('-', '−')}
      </text>
    </g>
  )
}
