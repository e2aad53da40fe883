// The joint's loss by Gaussians and by fields, and what lies between.

import type { LossPair } from '../../analysis/field/fieldPictures'

const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(3)}`

export function LossTable({ losses }: { readonly losses: readonly LossPair[] }) {
  return (
    <div className="wide-table">
      <table data-table="field-losses">
        <caption>Loss of the joint, without its reflections</caption>
        <thead>
          <tr>
            <th scope="col">Joint</th>
            <th scope="col" className="number">
              Gaussians, dB
            </th>
            <th scope="col" className="number">
              Fields, dB
            </th>
            <th scope="col" className="number">
              Difference, dB
            </th>
            <th scope="col" className="number">
              Accuracy of the fields, dB
            </th>
          </tr>
        </thead>
        <tbody>
          {losses.map(({ label, gaussianDb, fieldDb, errorDb }) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td className="number">{gaussianDb.toFixed(3)}</td>
              <td className="number">{fieldDb.toFixed(3)}</td>
              <td className="number">{signed(fieldDb - gaussianDb)}</td>
              <td className="number">{Math.max(errorDb, 1e-4).toFixed(4)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
