// A kept far-field measurement: every power column, and both together where there are two.

import { coreValue } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { MeasurementOf } from '../../model/schema/measurement'
import { attempted } from '../../numerics/outcome'
import { farFieldPair } from '../farField/farFieldAxes'
import { type FarFieldResult, farFieldMfd } from '../farField/farFieldMfd'
import { pickedValues, plottedIndices } from '../intake/plotData'
import { coordinateOf, detectorOf, type Signal, scaleOf, signalsOf } from './measurementColumns'
import type { MeasurementResult, MfdValue } from './measurementResult'

export function evaluateFarField(measurement: MeasurementOf<'far-field'>): MeasurementResult {
  const scale = scaleOf(measurement.angleScale)
  const detector = detectorOf(measurement.detectorExponent)
  const angleRad = coordinateOf(measurement.columns, 'angle', scale.factor)
  const signals = signalsOf(measurement.columns, detector.factor).map((signal) => ({
    ...signal,
    outcome: attempted(() =>
      farFieldMfd({
        angleRad,
        power: signal.values,
        wavelengthUm: coreValue(measurement.wavelength, 'wavelength'),
        wavelengthStandardUm: coreStandard(measurement.wavelength, 'wavelength'),
        angleScaleStandard: scale.standard,
        linearityStandard: detector.standard,
      }),
    ),
  }))
  const [x, y, ...more] = signals.flatMap(({ outcome }) => (outcome.ok ? [outcome.value] : []))
  const pair = x !== undefined && y !== undefined && more.length === 0 ? farFieldPair(x, y) : null
  return {
    method: 'far-field',
    signals: signals.map(({ label, outcome }) => ({
      label,
      outcome: outcome.ok ? { ok: true, value: withFewPoints(outcome.value) } : outcome,
    })),
    axes: pair,
    mfds: signals.flatMap((signal) =>
      signal.outcome.ok ? valuesOf(signal, signal.outcome.value, signals.length > 1) : [],
    ),
  }
}

function valuesOf(signal: Signal, result: FarFieldResult, several: boolean): readonly MfdValue[] {
  const suffix = several ? `, ${signal.label}` : ''
  const value = (id: string, label: string, valueUm: number): MfdValue => ({
    id: `${id} ${signal.label}`,
    label: `${label}${suffix}`,
    axis: signal.axis,
    valueUm,
    expandedUm: result.uncertaintyUm,
    method: `far-field scan, ${label}${suffix}`,
    budget: result.budget,
  })
  return [
    value('petermann2', 'Petermann II', result.petermann2MfdUm),
    value('gaussian', 'best-fit Gaussian of the far field', result.gaussianMfdUm),
  ]
}

function withFewPoints(result: FarFieldResult): FarFieldResult {
  const indices = plottedIndices(result.profile.power)
  return {
    ...result,
    profile: {
      angleRad: pickedValues(result.profile.angleRad, indices),
      power: pickedValues(result.profile.power, indices),
      fitted: pickedValues(result.profile.fitted, indices),
    },
  }
}
