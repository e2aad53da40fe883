// A far-field scan: Petermann II by the standard's integral, and everything that qualifies it.

import { useMemo, useState } from 'react'
import { fitFigure } from '../../../figures/measure/scans'
import {
  type FarFieldOutcome,
  type FarFieldResult,
  farFieldPair,
  type MeasurementResult,
} from '../../../measure/index'
import type { Measurement } from '../../../model/schema/measurement'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { fixedText } from '../../../numerics/numberText'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { type FactRow, FactTable, Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { degrees } from '../measurementText'
import { useMeasurementResult } from '../useMeasurementResult'
import { MfdTable } from './MfdTable'

const HEIGHT_PX = 330
/** Below this the logarithm of a floor-free power means nothing. */
const LOWEST_DB = -70

const angle = (angleRad: number | null) =>
  angleRad === null ? 'not reached' : `${fixedText(degrees(angleRad), 2)}°`

function rowsOf(result: FarFieldResult): readonly FactRow[] {
  return [
    ['Axis of the far field', angle(result.axisRad)],
    ['Positive half only', `${fixedText(result.halvesUm.positive, 3)} µm`],
    ['Negative half only', `${fixedText(result.halvesUm.negative, 3)} µm`],
    [
      'Difference between the halves',
      `${fixedText(result.halvesUm.positive - result.halvesUm.negative, 3)} µm`,
    ],
    ['Half-angle at 1/e²', angle(result.halfAngleE2Rad)],
    ['Half-angle at 5 %', angle(result.halfAngle5PercentRad)],
    ['NA at 5 %', result.na === null ? 'not reached' : fixedText(result.na, 4)],
    ['Integration limit', angle(result.limitRad)],
    ['Uncorrected integral', `${fixedText(result.integralMfdUm, 3)} µm`],
    ...truncationRows(result),
    ['Noise floor below peak', floorText(result)],
  ]
}

/** What the end of the scan does to the integral; a corrected result needs no second value next to it. */
function truncationRows(result: FarFieldResult): readonly FactRow[] {
  const share = `${fixedText(100 * result.truncationBias, 2)} %`
  if (result.truncationIsCorrected) return [['Truncation bias (corrected)', share]]
  return [
    ['Truncation bias (not corrected)', share],
    ['Extrapolated with the fitted model', `${fixedText(result.extrapolatedMfdUm, 3)} µm`],
  ]
}

function floorText({ floorPower, peakPower }: FarFieldResult): string {
  return floorPower > 0 ? `${fixedText(-10 * Math.log10(floorPower / peakPower), 1)} dB` : 'none found'
}

function shapeSentence(result: FarFieldResult): string {
  const apart = 100 * Math.abs(result.gaussianMfdUm / result.extrapolatedMfdUm - 1)
  const shape = result.fittedShape === 'gaussian' ? 'Gaussian' : 'step-index LP01'
  return `Best-fit model: ${shape}. The best-fit Gaussian MFD differs from Petermann II by ${fixedText(apart, 2)} %; for a Gaussian mode the two are equal.`
}

export function FarFieldView({
  project,
  measurement,
  result,
}: {
  readonly project: Project
  readonly measurement: Measurement
  readonly result: MeasurementResult & FarFieldOutcome
}) {
  const only = result.signals.length === 1 ? result.signals[0]?.outcome : undefined
  return (
    <>
      <MfdTable mfds={result.mfds} />
      {result.axes !== null && <Warnings messages={result.axes.warnings} />}
      {result.signals.map(({ label, outcome }) => (
        <section key={label} aria-label={label}>
          {result.signals.length > 1 && <h2>{label}</h2>}
          {outcome.ok ? (
            <div className="result-columns">
              <ScanDrawing label={label} result={outcome.value} />
              <div>
                <p className="gaussian">{shapeSentence(outcome.value)}</p>
                <Warnings messages={outcome.value.warnings} />
                <FactTable caption="Far-field results" rows={rowsOf(outcome.value)} />
              </div>
            </div>
          ) : (
            <p className="complaint">{outcome.message}</p>
          )}
        </section>
      ))}
      {only?.ok && <OtherAxis project={project} measurement={measurement} result={only.value} />}
      <p className="quiet">
        Integral of ITU-T G.650.1, IEC 60793-1-45 and TIA-455-191, without obliquity factor, for circular
        modes. The floor is a constant, fitted together with a mode shape and subtracted first.
      </p>
    </>
  )
}

/** A second scan of the same mode, across the first. */
function OtherAxis({
  project,
  measurement,
  result,
}: {
  readonly project: Project
  readonly measurement: Measurement
  readonly result: FarFieldResult
}) {
  const [otherId, setOtherId] = useState('')
  const others = project.measurements.filter(
    (each) => each.method === 'far-field' && each.id !== measurement.id,
  )
  const other = useMeasurementResult(byId(others, otherId)).outcome
  const signal = other?.ok && other.value.method === 'far-field' ? other.value.signals[0]?.outcome : undefined
  if (others.length === 0) return null
  const pair = signal?.ok ? farFieldPair(result, signal.value) : null
  return (
    <section aria-label="Orthogonal axis">
      <ChoiceField
        label="Orthogonal scan of the same mode"
        value={otherId}
        choices={[
          { value: '', label: 'none' },
          ...others.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChoose={setOtherId}
      />
      {pair !== null && (
        <>
          <Warnings messages={pair.circular ? [] : pair.warnings.slice(0, 1)} />
          <FactTable
            caption="Both axes"
            rows={[
              [
                'Petermann II of the mode',
                pair.petermann2MfdUm === null
                  ? 'none: not circular'
                  : `${fixedText(pair.petermann2MfdUm, 3)} µm`,
              ],
              ['Gaussian along this scan', `${fixedText(pair.gaussianMfdXUm, 3)} µm`],
              ['Gaussian along the orthogonal scan', `${fixedText(pair.gaussianMfdYUm, 3)} µm`],
            ]}
          />
        </>
      )}
    </section>
  )
}

function ScanDrawing({ label, result }: { readonly label: string; readonly result: FarFieldResult }) {
  const figure = useMemo(() => {
    const { angleRad, power, fitted } = result.profile
    const decibel = (value: number) => {
      const db = 10 * Math.log10(Math.max(value, 0) / result.peakPower)
      return db > LOWEST_DB ? db : Number.NaN
    }
    const residual = power.map((value, i) => (100 * (value - (fitted[i] ?? 0))) / result.peakPower)
    return fitFigure(
      { label, x: angleRad.map(degrees), y: power.map(decibel), fitted: fitted.map(decibel), residual },
      { x: 'Angle from the axis, °', y: 'Power, dB', residual: 'Residual, %' },
      `${label}: measured power (floor subtracted) and fit; lower plot: residual in % of peak.`,
    )
  }, [label, result])
  return <FigureView figure={figure} heightPx={HEIGHT_PX} />
}
