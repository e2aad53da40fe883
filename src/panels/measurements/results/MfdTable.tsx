// The diameters that a measurement gives, each with its expanded uncertainty.

import type { MfdValue } from '../../../measure/index'
import { mfdText } from '../measurementText'

export function MfdTable({ mfds }: { readonly mfds: readonly MfdValue[] }) {
  return (
    <table className="mfds">
      <caption>Mode-field diameter and expanded uncertainty, k = 2</caption>
      <tbody>
        {mfds.map((mfd) => (
          <tr key={mfd.id} data-mfd={mfd.id}>
            <th scope="row">{mfd.label}</th>
            <td className="number">{mfdText(mfd)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
