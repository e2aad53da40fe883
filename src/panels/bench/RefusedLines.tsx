// Lines that are no readings, with their number and the reason: nothing is dropped without saying so.

import type { RefusedLine } from '../../bench/index'

export function RefusedLines({
  lines,
  count,
}: {
  readonly lines: readonly RefusedLine[]
  readonly count: number
}) {
  if (count === 0) return null
  return (
    <div className="refused">
      <h2>{count === 1 ? 'One line was refused' : `${count} lines were refused`}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <section className="refused-table" tabIndex={0} aria-label="Refused lines">
        <table>
          <thead>
            <tr>
              <th scope="col" className="number">
                Line
              </th>
              <th scope="col">Text</th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
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
      {lines.length < count && <p className="quiet">{`The first ${lines.length} of ${count}.`}</p>}
    </div>
  )
}
