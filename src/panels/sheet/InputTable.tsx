// What a candidate was computed from.

import type { SheetInput } from '../../report/inputs'

export function InputTable({ inputs }: { readonly inputs: readonly SheetInput[] }) {
  return (
    <table className="sheet-inputs">
      <caption>Computed from</caption>
      <thead>
        <tr>
          <th scope="col">Quantity</th>
          <th scope="col" className="number">
            Value
          </th>
          <th scope="col">Tolerance</th>
          <th scope="col">From</th>
        </tr>
      </thead>
      <tbody>
        {inputs.map((input) => (
          <tr key={`${input.label} ${input.value} ${input.tolerance}`}>
            <th scope="row">{input.label}</th>
            <td className="number">{input.value}</td>
            <td>{input.tolerance}</td>
            <td>{input.provenance}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
