// What should be seen before the budget is believed: parts that do not fit, models that are stretched. The first is in
// sight, the rest one click away.

import type { ValidityNote } from '../../analysis/results/evaluation'

export function CautionList({ notes }: { readonly notes: readonly ValidityNote[] }) {
  const cautions = notes.filter((note) => note.caution === true)
  const [first] = cautions
  if (first === undefined) return null
  return (
    <details className="caution-list">
      <summary>
        <span aria-hidden="true" className="caution-sign">
          !
        </span>
        <span className="caution-count">
          {cautions.length === 1 ? 'Caution' : `${cautions.length} cautions`}
        </span>
        <span className="caution-first">{first.message}</span>
      </summary>
      <ul aria-label="Cautions about the results">
        {cautions.map(({ elementId, message }) => (
          <li key={`${elementId} ${message}`}>{message}</li>
        ))}
      </ul>
    </details>
  )
}
