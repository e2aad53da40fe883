// A measurement of the project: its results with their uncertainty, next to its conditions and what it can be applied to.

import type { MeasurementResult } from '../../measure/index'
import type { Measurement } from '../../model/schema/measurement'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { METHOD_NAMES } from '../../model/words/measurement'
import { editProject } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { Pane, Split } from '../../ui/controls/Panes'
import { PANES_FIT, useMedia } from '../../ui/controls/useMedia'
import { TextField } from '../../ui/fields/TextField'
import { ApplyToPart } from './ApplyToPart'
import { KindField } from './KindField'
import { LotView } from './lots/LotView'
import { StressView } from './lots/StressView'
import { MeasurementFields } from './MeasurementFields'
import { FarFieldView } from './results/FarFieldView'
import { ImageResult } from './results/ImageResult'
import { LoopbackView } from './results/LoopbackView'
import { OffsetView } from './results/OffsetView'
import { RasterView } from './results/RasterView'
import { RepeatedView } from './results/RepeatedView'
import { UncertaintyTables } from './results/UncertaintyTables'
import { useMeasurementResult } from './useMeasurementResult'

interface MeasurementViewProps {
  readonly project: Project
  readonly measurement: Measurement
}

export function MeasurementView({ project, measurement }: MeasurementViewProps) {
  const { outcome, busy } = useMeasurementResult(measurement)
  const sideBySide = useMedia(PANES_FIT)
  const results = (
    <Pane name="Measurement" headless>
      <article aria-busy={busy}>
        <h2 className="measurement-title">{measurement.name}</h2>
        <p className="quiet provenance">
          {METHOD_NAMES[measurement.method]}; {measurement.fileName}, {measurement.date}
          {measurement.notes.length > 0 && `; ${measurement.notes.join('; ')}`}
        </p>
        {outcome === null && <p role="status">Evaluating…</p>}
        {outcome !== null && !outcome.ok && (
          <p className="complaint" role="alert">
            {outcome.message}
          </p>
        )}
        {outcome?.ok && (
          <div className={busy ? 'stale' : undefined}>
            <ResultView project={project} measurement={measurement} result={outcome.value} />
            {outcome.value.mfds.length > 0 && <UncertaintyTables mfds={outcome.value.mfds} />}
          </div>
        )}
      </article>
      <Cautions />
    </Pane>
  )
  const conditions = (
    <Pane name="Measurement conditions">
      <Conditions project={project} measurement={measurement} />
      {outcome?.ok && outcome.value.mfds.length > 0 && (
        <ApplyToPart project={project} measurement={measurement} mfds={outcome.value.mfds} />
      )}
    </Pane>
  )
  if (!sideBySide) {
    return (
      <>
        {results}
        {conditions}
      </>
    )
  }
  return (
    <Split
      across
      id="measurement"
      panes={[
        { id: 'results', view: results, least: '24rem' },
        { id: 'conditions', view: conditions, size: '19rem', least: '14rem', most: '45%', fixed: true },
      ]}
    />
  )
}

function Conditions({ project, measurement }: MeasurementViewProps) {
  const find = (draft: Project) => byId(draft.measurements, measurement.id)
  return (
    <div className="measurement-conditions">
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
      <KindField project={project} measurement={measurement} />
      <MeasurementFields measurement={measurement} />
      <button
        type="button"
        className="subtle"
        onClick={() =>
          editProject((draft) => {
            draft.measurements = draft.measurements.filter((each) => each.id !== measurement.id)
          })
        }
      >
        Delete measurement
      </button>
    </div>
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
      return <ImageResult result={result} />
    case 'loopback':
      return <LoopbackView result={result} />
    case 'repeated':
      return <RepeatedView result={result} />
    case 'lot':
      return measurement.method === 'lot' ? (
        <LotView project={project} measurement={measurement} result={result} />
      ) : null
    case 'stress':
      return measurement.method === 'stress' ? <StressView measurement={measurement} result={result} /> : null
  }
}
