// How the reader understood an image file.

import type { ImageReading } from '../../../measure/index'
import { ownNotes } from '../measurementText'

export function ImageConclusions({ reading }: { readonly reading: ImageReading }) {
  const { kept } = reading
  const rows: readonly (readonly [string, string])[] = [
    ['Kind', `near-field image, ${reading.format}`],
    ['Size', `${reading.width} × ${reading.height} pixels, ${reading.bitDepth} bit`],
    ['Saturated', `${reading.saturatedCount} pixels`],
    ['Kept', `${kept.width} × ${kept.height} pixels`],
  ]
  return (
    <table className="conclusions">
      <caption>File interpretation</caption>
      <tbody>
        {[...rows, ...ownNotes(reading).map((note) => ['Note', note] as const)].map(([name, text]) => (
          <tr key={`${name} ${text}`}>
            <th scope="row">{name}</th>
            <td>{text}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
