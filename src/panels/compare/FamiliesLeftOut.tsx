// The families that the brief of a project built a moment ago has no design of, each with the reason.

import type { FamilyOutcome } from '../../analysis/proposals/proposeProject'

export function FamiliesLeftOut({ outcomes }: { readonly outcomes: readonly FamilyOutcome[] }) {
  if (outcomes.length === 0) return null
  return (
    <details className="compare-left-out">
      <summary>
        {outcomes.length === 1 ? '1 family does not apply' : `${outcomes.length} families do not apply`}
      </summary>
      <dl>
        {outcomes.map(({ familyId, label, text }) => (
          <div key={familyId}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </details>
  )
}
