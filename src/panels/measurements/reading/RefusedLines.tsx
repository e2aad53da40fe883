// Lines that are not readings, with their number and the reason: nothing is dropped silently.

import { useState } from 'react'
import type { RefusedLine } from '../../../measure/index'

const SHOWN_AT_ONCE = 200

export function RefusedLines({
  lines,
  count,
}: {
  readonly lines: readonly RefusedLine[]
  readonly count: number
}) {
  const [shown, setShown] = useState(SHOWN_AT_ONCE)
  if (count === 0) return null
  const rest = lines.length - shown
  return (
    <div className="refused">
      <h2>{count === 1 ? '1 line skipped' : `${count} lines skipped`}</h2>
      <section className="refused-table" aria-label="Skipped lines">
        <table>
          <thead>
            <tr>
              <th scope="col" className="number">
                Line
              </th>
              <th scope="col">Text</th>
              <th scope="col">Reason</th>
            </tr>
          </thead>
          <tbody>
            {lines.slice(0, shown).map((line) => (
              <tr key={line.line}>
                <td className="number">{line.line}</td>
                <td>
                  <code>{line.text}</code>
                </td>
                <td>{line.reason}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {rest > 0 && (
        <button type="button" onClick={() => setShown(shown + SHOWN_AT_ONCE)}>
          Show {Math.min(rest, SHOWN_AT_ONCE)} more
        </button>
      )}
      {Math.min(shown, lines.length) < count && (
        <p className="quiet">{`The first ${Math.min(shown, lines.length)} of ${count}.`}</p>
      )}
    </div>
  )
}
