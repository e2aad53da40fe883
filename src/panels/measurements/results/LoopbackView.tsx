// Insertion losses over guide length: loss of a facet and of the guide, and what is assumed equal.

import { useMemo } from 'react'
import { pointsAndLinesFigure } from '../../../figures/measure/scans'
import type { LoopbackOutcome } from '../../../measure/index'
import { fixedText, withUncertainty } from '../../../numerics/numberText'
import { FactTable, Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'

const HEIGHT_PX = 330

export function LoopbackView({ result }: { readonly result: LoopbackOutcome }) {
  const { facetLossDb, propagationDbPerCm, residualRmsDb, assumptions, warnings } = result.result
  const figure = useMemo(() => {
    const lengths = result.rows.map((row) => row.lengthCm)
    const ends = [0, Math.max(...lengths)]
    return pointsAndLinesFigure(
      {
        label: 'measured',
        x: lengths,
        y: result.rows.map((row) => row.lossDb),
        flagged: result.rows.map((row) => row.flagged),
      },
      [
        {
          label: 'straight line',
          x: ends,
          y: ends.map((length) => 2 * facetLossDb.value + propagationDbPerCm.value * length),
        },
      ],
      { x: 'Waveguide length, cm', y: 'Insertion loss, dB' },
      `Insertion loss against length; intercept (two facets): ${fixedText(2 * facetLossDb.value, 2)} dB. Outliers: open diamonds.`,
    )
  }, [result, facetLossDb, propagationDbPerCm])
  return (
    <div className="result-columns">
      <FigureView figure={figure} heightPx={HEIGHT_PX} />
      <div>
        <FactTable
          caption="Losses, with their 95 % intervals"
          rows={[
            ['Loss per facet', `${withUncertainty(facetLossDb.value, facetLossDb.plusMinus)} dB`],
            [
              'Propagation loss',
              `${withUncertainty(propagationDbPerCm.value, propagationDbPerCm.plusMinus)} dB/cm`,
            ],
            ['Scatter about the line, rms', `${fixedText(residualRmsDb, 3)} dB`],
          ]}
        />
        <Warnings messages={warnings} />
        <h3>Assumptions</h3>
        <ul>
          {assumptions.map((assumption) => (
            <li key={assumption}>{assumption}</li>
          ))}
        </ul>
        {result.groups.length > 0 && (
          <table>
            <caption>Repeated readings at one length</caption>
            <thead>
              <tr>
                <th scope="col" className="number">
                  Length, cm
                </th>
                <th scope="col" className="number">
                  Readings
                </th>
                <th scope="col" className="number">
                  Mean, dB
                </th>
                <th scope="col" className="number">
                  Spread, dB
                </th>
                <th scope="col" className="number">
                  Outliers
                </th>
              </tr>
            </thead>
            <tbody>
              {result.groups.map(({ lengthCm, readings }) => (
                <tr key={lengthCm}>
                  <td className="number">{fixedText(lengthCm, 2)}</td>
                  <td className="number">{readings.count}</td>
                  <td className="number">{fixedText(readings.mean, 3)}</td>
                  <td className="number">{fixedText(readings.standardDeviation, 3)}</td>
                  <td className="number">{readings.flagged.filter(Boolean).length}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </div>
    </div>
  )
}
