// A measurement of the project: what it says, how sure that is, and where it can go.

import type { MeasurementResult } from '../../measure/index'
import type { Measurement } from '../../model/schema/measurement'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { TextField } from '../../ui/fields/TextField'
import { ApplyToPart } from './ApplyToPart'
import { METHOD_NAMES } from './benchText'
import { FarFieldView } from './FarFieldView'
import { ImageView } from './ImageView'
import { LoopbackView } from './LoopbackView'
import { MeasurementFields } from './MeasurementFields'
import { OffsetView } from './OffsetView'
import { RasterView } from './RasterView'
import { RepeatedView } from './RepeatedView'
import { UncertaintyTables } from './UncertaintyTables'
import { useMeasurementResult } from './useMeasurementResult'

interface MeasurementViewProps {
  readonly project: Project
  readonly measurement: Measurement
}

export function MeasurementView({ project, measurement }: MeasurementViewProps) {
  const { outcome, busy } = useMeasurementResult(measurement)
  const find = (draft: Project) => draft.measurements.find((each) => each.id === measurement.id)
  return (
    <article aria-busy={busy}>
      <div className="candidate-head">
        <h1>{measurement.name}</h1>
        <button
          type="button"
          onClick={() =>
            editProject((draft) => {
              draft.measurements = draft.measurements.filter((each) => each.id !== measurement.id)
            })
          }
        >
          Delete measurement
        </button>
      </div>
      <p className="quiet provenance">
        {METHOD_NAMES[measurement.method]}; {measurement.fileName}, {measurement.date}
        {measurement.notes.length > 0 && `; ${measurement.notes.join('; ')}`}
      </p>
      {outcome === null && <p role="status">Evaluating</p>}
      {outcome !== null && !outcome.ok && (
        <p className="complaint" role="alert">
          {outcome.message}
        </p>
      )}
      {outcome?.ok && (
        <div className={busy ? 'stale' : undefined}>
          <Findings project={project} measurement={measurement} result={outcome.value} />
        </div>
      )}
      <section aria-label="What it was measured with">
        <h2>What it was measured with</h2>
        <div className="field-grid">
          <TextField
            label="Name"
            text={measurement.name}
            onCommit={(name) =>
              editProject((draft) => {
                const own = find(draft)
                if (own !== undefined) own.name = name
              })
            }
          />
          <MeasurementFields measurement={measurement} />
        </div>
      </section>
    </article>
  )
}

function Findings({
  project,
  measurement,
  result,
}: MeasurementViewProps & { readonly result: MeasurementResult }) {
  return (
    <>
      <ResultView project={project} measurement={measurement} result={result} />
      {result.mfds.length > 0 && (
        <div className="result-columns">
          <UncertaintyTables mfds={result.mfds} />
          <ApplyToPart project={project} measurement={measurement} mfds={result.mfds} />
        </div>
      )}
    </>
  )
}

function ResultView({
  project,
  measurement,
  result,
}: MeasurementViewProps & { readonly result: MeasurementResult }) {
  switch (result.method) {
    case 'far-field':
      return <FarFieldView project={project} measurement={measurement} result={result} />
    case 'offset':
      return <OffsetView project={project} result={result} />
    case 'raster':
      return <RasterView result={result} />
    case 'image':
      return <ImageView result={result} />
    case 'loopback':
      return <LoopbackView result={result} />
    case 'repeated':
      return <RepeatedView result={result} />
  }
}
