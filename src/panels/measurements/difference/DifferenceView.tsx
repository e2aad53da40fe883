// Measured vs predicted loss: which of offset, gap, tilt and mode size explains the difference best.

import { useState } from 'react'
import { type MeasuredLossCurve, measuredLossCurve } from '../../../measure/index'
import { coreValue } from '../../../model/quantity/quantity'
import type { Measurement, MeasurementOf } from '../../../model/schema/measurement'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { roundedTo } from '../../../numerics/numberText'
import { useDesign } from '../../../store/selection'
import { selectDesign } from '../../../store/view'
import { NoDesign } from '../../../ui/empty/NoDesign'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { useMeasurementResult } from '../useMeasurementResult'
import { ExplainedDifference } from './ExplainedDifference'
import { NumberField } from './NumberField'
import { Predicted } from './Predicted'

const SINGLE = 'single'
const AXES = ['x', 'y'].map((value) => ({ value, label: value }))
const ZEROS = [
  { value: 'known', label: 'working point' },
  { value: 'unknown', label: 'unknown (use peak)' },
]

/** Offset scans, and results that are a loss with an interval. */
function sources(project: Project): readonly Measurement[] {
  return project.measurements.filter(
    (each) =>
      each.method === 'offset' ||
      each.method === 'loopback' ||
      (each.method === 'repeated' && each.unit === 'dB'),
  )
}

export function DifferenceView({ project }: { readonly project: Project }) {
  const [sourceId, setSourceId] = useState(SINGLE)
  const candidate = useDesign()
  if (candidate === undefined) {
    return (
      <>
        <h2 className="measurement-title">Measured vs predicted loss</h2>
        <NoDesign shows="Which of offset, gap, tilt and MFD best explains the difference between a measured and a predicted loss." />
      </>
    )
  }
  const known = sources(project)
  const source = byId(known, sourceId)
  return (
    <>
      <h2 className="measurement-title">Measured vs predicted loss</h2>
      <p className="prose">
        Finds which of offset, gap, tilt and MFD best explains the difference, each constrained by its
        tolerance. Enter the total insertion loss, fibre to waveguide.
      </p>
      <div className="field-grid">
        <ChoiceField
          label="Design"
          value={candidate.id}
          choices={project.candidates.map(({ id, name }) => ({ value: id, label: name }))}
          onChoose={selectDesign}
        />
        <ChoiceField
          label="Measured loss"
          value={source?.id ?? SINGLE}
          choices={[
            { value: SINGLE, label: 'single value' },
            ...known.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChoose={setSourceId}
        />
      </div>
      {source === undefined ? (
        <SingleLoss project={project} candidateId={candidate.id} />
      ) : source.method === 'offset' ? (
        <LossCurve key={source.id} project={project} candidateId={candidate.id} measurement={source} />
      ) : (
        <MeasuredLoss key={source.id} project={project} candidateId={candidate.id} measurement={source} />
      )}
    </>
  )
}

interface AgainstCandidate {
  readonly project: Project
  readonly candidateId: string
}

/** A loss at the working point, entered or from a result. */
function SingleLoss({
  project,
  candidateId,
  lossDb,
  standardDb = 0.1,
}: AgainstCandidate & { readonly lossDb?: number; readonly standardDb?: number }) {
  const [loss, setLoss] = useState<number | null>(lossDb ?? null)
  const [standard, setStandard] = useState<number | null>(standardDb)
  const curve: MeasuredLossCurve | null =
    loss === null || standard === null ? null : { positionUm: [0], lossDb: [loss], standardDb: [standard] }
  return (
    <>
      <div className="field-grid">
        <NumberField label="Measured loss, dB" value={loss} least={0} onSet={setLoss} />
        <NumberField label="Standard uncertainty, dB" value={standard} least={0.001} onSet={setStandard} />
      </div>
      {curve === null ? (
        <Predicted project={project} candidateId={candidateId} />
      ) : (
        <ExplainedDifference
          project={project}
          candidateId={candidateId}
          curve={curve}
          axis="x"
          shapeOnly={false}
          withoutShift={false}
        />
      )}
    </>
  )
}

/** The facet loss of a loopback series, or the mean of repeated readings. */
function MeasuredLoss({
  project,
  candidateId,
  measurement,
}: AgainstCandidate & { readonly measurement: Measurement }) {
  const { outcome } = useMeasurementResult(measurement)
  if (outcome === null) return <p role="status">Evaluating…</p>
  if (!outcome.ok) return <p className="complaint">{outcome.message}</p>
  const { value } = outcome
  if (value.method === 'loopback') {
    const { facetLossDb } = value.result
    return (
      <SingleLoss
        project={project}
        candidateId={candidateId}
        lossDb={round(facetLossDb.value)}
        {...(facetLossDb.plusMinus === null ? {} : { standardDb: round(facetLossDb.plusMinus / 2) })}
      />
    )
  }
  if (value.method !== 'repeated') return null
  return (
    <SingleLoss
      project={project}
      candidateId={candidateId}
      lossDb={round(value.result.mean)}
      standardDb={round(Math.max(0.001, value.result.standardOfMean))}
    />
  )
}

const round = (db: number) => roundedTo(db, 3)

/** An offset scan of the joint itself. */
function LossCurve({
  project,
  candidateId,
  measurement,
}: AgainstCandidate & { readonly measurement: MeasurementOf<'offset'> }) {
  const { outcome } = useMeasurementResult(measurement)
  const [label, setLabel] = useState('')
  const [axis, setAxis] = useState<'x' | 'y'>('x')
  const [zero, setZero] = useState('unknown')
  if (outcome === null) return <p role="status">Evaluating…</p>
  if (!outcome.ok) return <p className="complaint">{outcome.message}</p>
  if (outcome.value.method !== 'offset') return null
  const signals = outcome.value.signals.flatMap((signal) =>
    signal.outcome.ok ? [{ label: signal.label, scan: signal.outcome.value }] : [],
  )
  const signal = signals.find((each) => each.label === label) ?? signals[0]
  if (signal === undefined) return <p className="complaint">No signal of this scan could be evaluated.</p>
  const { referencePower } = measurement
  const reference = referencePower === undefined ? null : coreValue(referencePower, 'power')
  return (
    <>
      <div className="field-grid">
        <ChoiceField
          label="Signal"
          value={signal.label}
          choices={signals.map((each) => ({ value: each.label, label: each.label }))}
          onChoose={setLabel}
        />
        <ChoiceField
          label="Scan axis"
          value={axis}
          choices={AXES}
          onChoose={(value) => setAxis(value === 'y' ? 'y' : 'x')}
        />
        <ChoiceField label="Stage origin" value={zero} choices={ZEROS} onChoose={setZero} />
      </div>
      <p className="quiet">
        {reference === null
          ? 'The scan has no reference power: only the shapes are compared, each relative to its minimum.'
          : `Losses relative to the reference power of ${reference} µW.`}
      </p>
      <ExplainedDifference
        project={project}
        candidateId={candidateId}
        curve={measuredLossCurve(signal.scan, reference, zero === 'unknown')}
        axis={axis}
        shapeOnly={reference === null}
        withoutShift={zero === 'unknown'}
      />
    </>
  )
}
