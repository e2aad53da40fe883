// The spread of a lot by its sources.

import type { LotSummary } from '../../../measure/index'
import { fixedText } from '../../../numerics/numberText'

const NAMES: Readonly<Record<string, string>> = {
  batch: 'Batch to batch',
  station: 'Station to station',
  assembly: 'Assembly to assembly',
  channel: 'Channel to channel, common to all assemblies',
  residual: 'Channel within assembly, and measurement',
}
const LISTED = new Intl.ListFormat('en', { type: 'conjunction' })

export function VarianceTable({ lot }: { readonly lot: LotSummary }) {
  const { components, residual, omitted } = lot.variances
  const all = [...components, residual]
  const total = all.reduce((sum, { variance }) => sum + variance, 0)
  const negative = all
    .filter(({ estimate }) => estimate < 0)
    .map(({ name }) => (NAMES[name] ?? name).toLowerCase())
  return (
    <>
      <table>
        <caption>Variance components</caption>
        <thead>
          <tr>
            <th scope="col">Source</th>
            <th scope="col" className="number">
              Levels
            </th>
            <th scope="col" className="number">
              Std. dev., dB
            </th>
            <th scope="col" className="number">
              Share, %
            </th>
          </tr>
        </thead>
        <tbody>
          {all.map(({ name, levels, variance }) => (
            <tr key={name}>
              <th scope="row">{NAMES[name] ?? name}</th>
              <td className="number">{levels}</td>
              <td className="number">{fixedText(Math.sqrt(variance), 3)}</td>
              <td className="number">{total > 0 ? fixedText((100 * variance) / total, 1) : '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">
        Measurement uncertainty contributes {fixedText(lot.standardDb, 3)} dB to the last row.
        {negative.length > 0 &&
          ` ${negative.length > 1 ? 'Negative estimates' : 'Negative estimate'}, taken as 0: ${LISTED.format(negative)}.`}
        {omitted.length > 0 && ` Cannot be separated in this lot: ${LISTED.format(omitted)}.`}
      </p>
    </>
  )
}
