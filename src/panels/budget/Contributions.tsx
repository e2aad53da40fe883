// Which tolerances add most loss, each alone at its limit.

import type { Evaluation } from '../../analysis/results/evaluation'
import { lossText } from '../../model/quantity/lossText'

const SHOWN = 6

export function Contributions({ evaluation }: { readonly evaluation: Evaluation }) {
  const { contributions } = evaluation.rootSumSquare
  const shown = contributions.filter((each) => each.addedDb > 0.0005).slice(0, SHOWN)
  if (shown.length === 0) return <p className="quiet">No tolerance of this path adds loss.</p>
  return (
    <table data-table="contributions">
      <caption className="visually-hidden">Excess loss per tolerance</caption>
      <tbody>
        {shown.map((each) => (
          <tr key={each.path.join('/')}>
            <th scope="row">{each.label}</th>
            <td className="number">{lossText(each.addedDb)} dB</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
