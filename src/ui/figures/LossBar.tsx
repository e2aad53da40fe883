// The loss of a design as one bar in the colours of its causes; all bars of a list have one scale.

import { lossShares } from '../../analysis/compare/lossGroups'
import type { BudgetLine } from '../../analysis/results/evaluation'
import { fixedText } from '../../numerics/numberText'

const LEAST_SHARE = 0.004

export function LossBar({
  lines,
  mostDb,
  limitDb,
}: {
  readonly lines: readonly BudgetLine[]
  /** Loss at the full width. */
  readonly mostDb: number
  /** Where the limit is marked; absent for a bar without one. */
  readonly limitDb?: number
}) {
  let left = 1
  return (
    <span className="loss-bar" aria-hidden="true">
      {lossShares(lines).map(({ id, label, lossDb }) => {
        const share = mostDb > 0 ? Math.min(left, Math.max(0, lossDb) / mostDb) : 0
        left -= share
        return share < LEAST_SHARE ? null : (
          <span
            key={id}
            data-cause={id}
            title={`${label} ${fixedText(lossDb, 2)} dB`}
            style={{ inlineSize: `${100 * share}%` }}
          />
        )
      })}
      {limitDb !== undefined && limitDb <= mostDb && (
        <i className="loss-bar-limit" style={{ insetInlineStart: `${(100 * limitDb) / mostDb}%` }} />
      )}
    </span>
  )
}
