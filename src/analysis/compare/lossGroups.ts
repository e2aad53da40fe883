// The lines of a budget in a few groups of causes, for bars side by side.

import type { BudgetLine, LineKind } from '../results/evaluation'

/** Causes that belong together, in the order of a bar. */
export const LOSS_GROUPS = [
  { id: 'mode', label: 'mode mismatch', kinds: ['mode mismatch', 'mode shape'] },
  { id: 'pose', label: 'gap and misalignment', kinds: ['gap', 'lateral offset', 'tilt', 'roll', 'combined'] },
  { id: 'face', label: 'end faces', kinds: ['fresnel', 'clipping'] },
  { id: 'joined', label: 'splice and connector', kinds: ['splice', 'connector'] },
  {
    id: 'inside',
    label: 'taper, device and propagation',
    kinds: ['taper', 'propagation', 'device', 'absorption', 'drift', 'user line'],
  },
] as const satisfies readonly {
  readonly id: string
  readonly label: string
  readonly kinds: readonly LineKind[]
}[]
type LossGroupId = (typeof LOSS_GROUPS)[number]['id']

interface LossShare {
  readonly id: LossGroupId
  readonly label: string
  /** May be negative where a `combined` line outweighs the others. */
  readonly lossDb: number
}

export function lossShares(lines: readonly BudgetLine[]): readonly LossShare[] {
  return LOSS_GROUPS.map(({ id, label, kinds }) => ({
    id,
    label,
    lossDb: lines.reduce(
      (sum, line) => sum + ((kinds as readonly LineKind[]).includes(line.kind) ? line.lossDb : 0),
      0,
    ),
  }))
}
