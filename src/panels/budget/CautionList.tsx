// What should be seen before the budget is believed: parts that do not fit, models that are stretched.

import type { ValidityNote } from '../../analysis/results/evaluation'

export function CautionList({ notes }: { readonly notes: readonly ValidityNote[] }) {
  const cautions = notes.filter((note) => note.caution === true)
  if (cautions.length === 0) return null
  return (
    <ul className="caution-list" aria-label="Cautions about the numbers">
      {cautions.map(({ elementId, message }) => (
        <li key={`${elementId} ${message}`}>
          <span aria-hidden="true" className="caution-sign">
            !
          </span>
          <span>{message}</span>
        </li>
      ))}
    </ul>
  )
}
