// What is wrong with a file: the first faults, and how many more there are.

const SHOWN = 8

export function FaultList({ faults }: { readonly faults: readonly string[] }) {
  const different = [...new Set(faults)]
  const more = different.length - SHOWN
  return (
    <ul className="fault-list">
      {different.slice(0, SHOWN).map((fault) => (
        <li key={fault}>{fault}</li>
      ))}
      {more > 0 && <li className="quiet">{more === 1 ? '1 more fault' : `${more} more faults`}</li>}
    </ul>
  )
}
