// The joint's loss by Gaussians and by fields, and what lies between.

import type { LossPair } from '../../analysis/field/fieldPictures'
import { fixedText, signedText } from '../../numerics/numberText'

export function LossTable({ losses }: { readonly losses: readonly LossPair[] }) {
  return (
    <div className="wide-table">
      <table data-table="field-losses">
        <caption>Coupling loss of each joint</caption>
        <thead>
          <tr>
            <th scope="col">Joint</th>
            <th scope="col" className="number">
              Gaussian, dB
            </th>
            <th scope="col" className="number">
              Field overlap, dB
            </th>
            <th scope="col" className="number">
              Difference, dB
            </th>
            <th scope="col" className="number">
              Numerical error, dB
            </th>
          </tr>
        </thead>
        <tbody>
          {losses.map(({ label, gaussianDb, fieldDb, errorDb }) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td className="number">{fixedText(gaussianDb, 3)}</td>
              <td className="number">{fixedText(fieldDb, 3)}</td>
              <td className="number">{signedText(fieldDb - gaussianDb, 3)}</td>
              <td className="number">{fixedText(Math.max(errorDb, 1e-4), 4)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
