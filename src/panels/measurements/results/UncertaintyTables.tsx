// The uncertainty budget of a chosen diameter (JCGM 100).

import { useState } from 'react'
import type { MfdValue } from '../../../measure/index'
import { byId } from '../../../model/words/byId'
import { fixedText, plainText } from '../../../numerics/numberText'
import { ChoiceField } from '../../../ui/fields/ChoiceField'

/** Sources that only the user can state, by tolerances of the measurement's fields. */
const STATED: ReadonlySet<string> = new Set([
  'probe MFD',
  'stage scale',
  'detector linearity',
  'wavelength',
  'angular scale',
  'pixel scale',
])
const MANY = 10_000

const freedom = (degrees: number) => (degrees > MANY ? '∞' : plainText(degrees, 3))

function sizeText(source: string, standardUm: number): string {
  if (standardUm > 0) return plainText(standardUm, 2)
  return STATED.has(source) ? 'not specified (0)' : '0'
}

export function UncertaintyTables({ mfds }: { readonly mfds: readonly MfdValue[] }) {
  const [chosen, setChosen] = useState('')
  const mfd = byId(mfds, chosen) ?? mfds[0]
  if (mfd === undefined) return null
  const { budget } = mfd
  const variance = budget.combinedUm ** 2
  return (
    <section aria-label="Uncertainty budget">
      <h2>Uncertainty budget</h2>
      {mfds.length > 1 && (
        <ChoiceField
          label="Result"
          value={mfd.id}
          choices={mfds.map(({ id, label }) => ({ value: id, label }))}
          onChoose={setChosen}
        />
      )}
      <table className="uncertainty">
        <thead>
          <tr>
            <th scope="col">Source</th>
            <th scope="col">Type</th>
            <th scope="col" className="number">
              Standard uncertainty, µm
            </th>
            <th scope="col" className="number">
              Degrees of freedom
            </th>
            <th scope="col" className="number">
              Share
            </th>
          </tr>
        </thead>
        <tbody>
          {budget.contributions.map((part) => (
            <tr key={part.source}>
              <th scope="row">{part.source}</th>
              <td>{part.type}</td>
              <td className="number">{sizeText(part.source, part.standardUm)}</td>
              <td className="number">{freedom(part.degreesOfFreedom)}</td>
              <td className="number">
                {variance > 0 ? `${fixedText((100 * part.standardUm ** 2) / variance, 0)} %` : ''}
              </td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">Combined</th>
            <td />
            <td className="number">{plainText(budget.combinedUm, 2)}</td>
            <td className="number">{freedom(budget.effectiveDegreesOfFreedom)}</td>
            <td />
          </tr>
          {budget.biasUm !== 0 && (
            <tr>
              <th scope="row">Known bias, not corrected</th>
              <td />
              <td className="number">{plainText(budget.biasUm, 2)}</td>
              <td />
              <td />
            </tr>
          )}
          <tr>
            <th scope="row">Expanded, k = 2</th>
            <td />
            <td className="number">{plainText(budget.expandedUm, 2)}</td>
            <td />
            <td />
          </tr>
        </tfoot>
      </table>
      <p className="quiet">
        After JCGM 100:2008. Unspecified contributions are taken as zero; enter the tolerances in Measurement
        conditions.
      </p>
    </section>
  )
}
