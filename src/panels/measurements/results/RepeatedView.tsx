// Repeated readings of one quantity: mean, spread, and outliers, which are not dropped.

import { useMemo } from 'react'
import { pointsAndLinesFigure } from '../../../figures/measure/scans'
import type { RepeatedOutcome } from '../../../measure/index'
import { fixedText, withUncertainty } from '../../../numerics/numberText'
import { FactTable } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'

const HEIGHT_PX = 300

export function RepeatedView({ result }: { readonly result: RepeatedOutcome }) {
  const { readings, unit } = result
  const repeated = result.result
  const shownUnit = unit === 'um' ? 'µm' : unit
  const standOut = repeated.flagged.filter(Boolean).length
  const figure = useMemo(
    () =>
      pointsAndLinesFigure(
        {
          label: 'readings',
          x: readings.map((_, i) => i + 1),
          y: readings,
          flagged: repeated.flagged,
        },
        [
          { label: 'mean', x: [1, readings.length], y: [repeated.mean, repeated.mean] },
          {
            label: 'mean excluding outliers',
            x: [1, readings.length],
            y: [repeated.meanWithoutFlagged, repeated.meanWithoutFlagged],
          },
        ],
        { x: 'Reading', y: `Value, ${shownUnit}` },
        `${readings.length} readings in order; outliers (open diamonds): ${standOut}.`,
      ),
    [readings, repeated, shownUnit, standOut],
  )
  return (
    <div className="result-columns">
      <FigureView figure={figure} heightPx={HEIGHT_PX} />
      <FactTable
        caption="Repeated readings"
        rows={[
          ['Readings', String(repeated.count)],
          ['Mean, 95 % interval', `${withUncertainty(repeated.mean, repeated.expanded)} ${shownUnit}`],
          ['Median', `${fixedText(repeated.median, 4)} ${shownUnit}`],
          ['Standard deviation of a reading', `${fixedText(repeated.standardDeviation, 4)} ${shownUnit}`],
          ['Standard uncertainty of the mean', `${fixedText(repeated.standardOfMean, 4)} ${shownUnit}`],
          ['Outliers (modified z above 3.5)', String(standOut)],
          ['Mean excluding outliers', `${fixedText(repeated.meanWithoutFlagged, 4)} ${shownUnit}`],
        ]}
      />
    </div>
  )
}
