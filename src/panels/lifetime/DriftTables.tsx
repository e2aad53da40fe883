// Numbers of a drift: what it rests on, and what each law would make of the same readings.

import type { ServiceDrift } from '../../analysis/lifetime/serviceDrift'
import { exposureText, LAW_TEXTS } from '../../model/words/lifetime'
import { fixedText, plainText, signedText } from '../../numerics/numberText'
import { FactTable } from '../../ui/figures/FactTable'

export function DriftFacts({ drift }: { readonly drift: ServiceDrift }) {
  const { fit, test } = drift
  return (
    <FactTable
      caption="Stress test and service"
      rows={[
        ['Assemblies, channels', `${fit.assemblies}, ${fit.series}`],
        ['Last reading', exposureText(test.last, test.unit)],
        ['Service life', exposureText(drift.service, test.unit)],
        ['Acceleration factor', plainText(drift.acceleration, 3)],
        ['Equivalent test exposure', exposureText(drift.exposure, test.unit)],
        [
          'Mean drift, 95 % interval',
          `${signedText(drift.meanDb, 3)} ± ${fixedText(drift.meanPlusMinusDb, 3)} dB`,
        ],
        ['One channel, 95 % interval', `± ${fixedText(drift.onePlusMinusDb, 3)} dB`],
      ]}
    />
  )
}

export function LawTable({ drift }: { readonly drift: ServiceDrift }) {
  return (
    <>
      <table>
        <caption>Drift at the end of service life, by law</caption>
        <thead>
          <tr>
            <th scope="col">Law</th>
            <th scope="col">Drift proportional to</th>
            <th scope="col" className="number">
              Mean, dB
            </th>
            <th scope="col" className="number">
              95 % interval, ± dB
            </th>
            <th scope="col" className="number">
              One channel, ± dB
            </th>
            <th scope="col" className="number">
              Residuals, dB
            </th>
          </tr>
        </thead>
        <tbody>
          {drift.byLaw.map(({ fit, meanDb, meanPlusMinusDb, onePlusMinusDb }) => (
            <tr key={fit.law} aria-current={fit.law === drift.fit.law ? 'true' : undefined}>
              <th scope="row">
                {LAW_TEXTS[fit.law].label}
                {fit.law === drift.fit.law && ' (chosen)'}
              </th>
              <td>{LAW_TEXTS[fit.law].form}</td>
              <td className="number">{signedText(meanDb, 3)}</td>
              <td className="number">{fixedText(meanPlusMinusDb, 3)}</td>
              <td className="number">{fixedText(onePlusMinusDb, 3)}</td>
              <td className="number">{fit.residualDb === null ? '–' : fixedText(fit.residualDb, 4)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">
        Least squares, each channel with its own initial loss and rate; t₁ is the first step of the test. A
        law that fits the readings well need not hold beyond them: choose the law from the drift mechanism,
        and give its source under Law and service.
      </p>
    </>
  )
}
