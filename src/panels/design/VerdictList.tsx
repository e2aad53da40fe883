// Each requirement in words: met, not met or not known, with the reason. The sign is never colour alone.

import type { Verdict, VerdictStatus } from '../../analysis/index'

const SIGNS: Readonly<Record<VerdictStatus, string>> = { met: '✓', 'not met': '✕', 'not known': '?' }

export function VerdictList({ verdicts }: { readonly verdicts: readonly Verdict[] }) {
  return (
    <ul className="verdicts" aria-label="Requirements">
      {verdicts.map((verdict) => (
        <li key={verdict.id} data-status={verdict.status} data-verdict={verdict.id}>
          <span aria-hidden="true" className="verdict-sign">
            {SIGNS[verdict.status]}
          </span>
          <span>
            {verdict.label}: <strong>{verdict.status}</strong>
            <span className="quiet"> ({verdict.reason})</span>
          </span>
        </li>
      ))}
    </ul>
  )
}
