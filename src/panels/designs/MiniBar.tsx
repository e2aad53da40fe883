// The loss of a design as one small bar, in the colours of its causes; all bars of a list have one scale.

import type { BudgetLine, LineKind } from '../../analysis/results/evaluation'

/** Causes that belong together, in the order of the bar. */
const GROUPS: readonly { readonly id: string; readonly kinds: readonly LineKind[] }[] = [
  { id: 'mode', kinds: ['mode mismatch', 'mode shape'] },
  { id: 'pose', kinds: ['gap', 'lateral offset', 'tilt', 'roll', 'combined'] },
  { id: 'face', kinds: ['fresnel', 'clipping'] },
  { id: 'joined', kinds: ['splice', 'connector'] },
  { id: 'inside', kinds: ['taper', 'propagation', 'device', 'absorption', 'user line'] },
]
const LEAST_SHARE = 0.004

export function MiniBar({
  lines,
  mostDb,
}: {
  readonly lines: readonly BudgetLine[]
  /** Loss at the full width. */
  readonly mostDb: number
}) {
  return (
    <span className="mini-bar" aria-hidden="true">
      {GROUPS.map(({ id, kinds }) => {
        const lossDb = lines.reduce((sum, line) => sum + (kinds.includes(line.kind) ? line.lossDb : 0), 0)
        const share = mostDb > 0 ? Math.min(1, lossDb / mostDb) : 0
        return share < LEAST_SHARE ? null : (
          <span key={id} data-cause={id} style={{ inlineSize: `${100 * share}%` }} />
        )
      })}
    </span>
  )
}
