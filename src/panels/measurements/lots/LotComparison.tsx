// A lot against the prediction of a design, and the tolerances that would explain it.

import { useMemo, useState } from 'react'
import type { LotExplanation } from '../../../analysis/production/explainLot'
import { lossDistributionFigure, quantileFigure } from '../../../figures/lots/lossDistribution'
import { runMeasureJob } from '../../../jobs/measureClient'
import type { LotSummary } from '../../../measure/index'
import { leadingLimitDb } from '../../../model/project/lossCriteria'
import type { MeasurementOf } from '../../../model/schema/measurement'
import type { Project } from '../../../model/schema/project'
import { fixedText, signedText } from '../../../numerics/numberText'
import { useDesign } from '../../../store/selection'
import { selectDesign } from '../../../store/view'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { FigureView } from '../../../ui/figures/FigureView'
import { useStartedJob } from '../../../ui/jobs/useStartedJob'
import { ExplainedTolerances } from './ExplainedTolerances'

const HEIGHT_PX = 280

interface Compared {
  readonly project: Project
  readonly candidateId: string
  readonly lot: LotSummary
  readonly found: LotExplanation
}

interface LotOf {
  readonly project: Project
  readonly measurement: MeasurementOf<'lot'>
  readonly lot: LotSummary
}

export function LotComparison({ project, measurement, lot }: LotOf) {
  const design = useDesign()
  const { progress, message, isCancelled, start, cancel } = useStartedJob()
  const [compared, setCompared] = useState<Compared | null>(null)
  const compare = (candidateId: string) => {
    const { lossDb, assemblyOf, channelOf, assemblies, channels, standardDb } = lot
    const measured = {
      lossDb,
      assemblyOf,
      channelOf,
      assemblies: assemblies.length,
      channels: channels.length,
      standardDb,
    }
    // The readings are by far the most of a project, and a lot has not drifted yet.
    const input = { project: { ...project, measurements: [] }, candidateId, lot: measured }
    return start(
      (signal, onProgress) => runMeasureJob('explainLot', input, { signal, onProgress }),
      (found) => setCompared({ project, candidateId, lot, found }),
    )
  }
  if (design === undefined) return null
  const isStale = compared !== null && (compared.project !== project || compared.lot !== lot)
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
          <button type="button" className="primary" onClick={() => void compare(design.id)}>
            Compare with design
          </button>
        ) : (
          <button type="button" onClick={cancel}>
            Cancel comparison
          </button>
        )}
        {progress !== null && <progress max={1} value={progress} aria-label="Comparison" />}
        <span role="status">
          {progress !== null
            ? 'Simulating lots…'
            : isStale
              ? 'The project has changed since this comparison.'
              : isCancelled
                ? 'Cancelled.'
                : message}
        </span>
      </div>
      {compared !== null && (
        <div className={isStale ? 'stale' : undefined}>
          <Comparison compared={compared} name={name ?? ''} />
          <ExplainedTolerances found={compared.found} measurement={measurement} isStale={isStale} />
        </div>
      )}
    </section>
  )
}

function Comparison({ compared, name }: { readonly compared: Compared; readonly name: string }) {
  const { found, lot, project } = compared
  const limitDb = leadingLimitDb(project.requirements)
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
