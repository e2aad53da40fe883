// Named results in a row each, and what a reader of them must know.

import { unbroken } from '../../numerics/numberText'

export type FactRow = readonly [name: string, value: string]

export function FactTable({
  caption,
  rows,
}: {
  readonly caption: string
  readonly rows: readonly FactRow[]
}) {
  return (
    <table className="facts">
      <caption>{caption}</caption>
      <tbody>
        {rows.map(([name, value]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td className="number">{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

export function Warnings({ messages }: { readonly messages: readonly string[] }) {
  if (messages.length === 0) return null
  return (
    <ul className="warnings" aria-label="Warnings">
      {messages.map((message) => (
        <li key={message}>{unbroken(message)}</li>
      ))}
    </ul>
  )
}
