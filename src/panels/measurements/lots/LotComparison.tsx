// A lot against the prediction of a design, and the tolerances that would explain it.

import { useMemo } from 'react'
import { lossDistributionFigure, quantileFigure } from '../../../figures/lots/lossDistribution'
import type { LotSummary } from '../../../measure/index'
import { leadingLimitDb } from '../../../model/project/lossCriteria'
import type { MeasurementOf } from '../../../model/schema/measurement'
import type { Project } from '../../../model/schema/project'
import { fixedText, signedText } from '../../../numerics/numberText'
import { useDesign } from '../../../store/selection'
import { selectDesign } from '../../../store/view'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { FigureView } from '../../../ui/figures/FigureView'
import { ExplainedTolerances } from './ExplainedTolerances'
import {
  type ComparedLot,
  cancelLotComparison,
  compareLot,
  isOutdated,
  useLotComparison,
} from './lotComparisons'

const HEIGHT_PX = 280

interface LotOf {
  readonly project: Project
  readonly measurement: MeasurementOf<'lot'>
  readonly lot: LotSummary
}

export function LotComparison({ project, measurement, lot }: LotOf) {
  const design = useDesign()
  const { finished: compared, progress, message } = useLotComparison(measurement.id)
  if (design === undefined) return null
  const isStale = compared !== null && isOutdated(compared, project, lot)
  const name = project.candidates.find(({ id }) => id === compared?.candidateId)?.name
  return (
    <section aria-label="Lot vs prediction">
      <h2>Lot vs prediction</h2>
      <div className="take-over">
        <ChoiceField
          label="Design"
          value={design.id}
          choices={project.candidates.map((each) => ({ value: each.id, label: each.name }))}
          onChoose={selectDesign}
        />
        {progress === null ? (
          <button
            type="button"
            className="primary"
            onClick={() => void compareLot(measurement.id, project, design.id, lot)}
          >
            Compare with design
          </button>
        ) : (
          <button type="button" onClick={() => cancelLotComparison(measurement.id)}>
            Cancel comparison
          </button>
        )}
        {progress !== null && <progress max={1} value={progress} aria-label="Comparison" />}
        <span role="status">
          {progress !== null
            ? 'Simulating lots…'
            : isStale
              ? 'The project has changed since this comparison.'
              : message}
        </span>
      </div>
      {compared !== null && (
        <div className={isStale ? 'stale' : undefined}>
          <Comparison compared={compared} name={name ?? ''} limitDb={leadingLimitDb(project.requirements)} />
          <ExplainedTolerances found={compared.found} measurement={measurement} isStale={isStale} />
        </div>
      )}
    </section>
  )
}

function Comparison({
  compared,
  name,
  limitDb,
}: {
  readonly compared: ComparedLot
  readonly name: string
  readonly limitDb: number
}) {
  const { found, lot } = compared
  const [losses, quantiles] = useMemo(() => {
    const both = { measured: lot.lossDb, predicted: found.predictedDb, limitDb }
    return [lossDistributionFigure(both), quantileFigure(both)]
  }, [lot, found, limitDb])
  return (
    <>
      <p>
        <strong>
          {found.agrees
            ? 'The lot agrees with the prediction.'
            : 'The lot does not agree with the prediction.'}
        </strong>{' '}
        {name}: mean loss {signedText(found.meanDifferenceDb, 2)} dB relative to the prediction; greatest
        difference between the cumulative distributions {fixedText(100 * found.distance, 1)} %, equalled or
        exceeded in {fixedText(100 * found.probability, 1)} % of simulated lots of this size (test at 5 %;
        measurement uncertainty of {fixedText(lot.standardDb, 3)} dB included).
        {found.otherChannels !== null &&
          ` The lot has ${lot.channels.length} channels per assembly, the design ${found.otherChannels}.`}
      </p>
      <div className="result-columns">
        <FigureView figure={losses} heightPx={HEIGHT_PX} />
        <FigureView figure={quantiles} heightPx={HEIGHT_PX} />
      </div>
    </>
  )
}
