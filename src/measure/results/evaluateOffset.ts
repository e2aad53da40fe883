// A kept transverse-offset measurement: the unknown mode behind every power column.

import { coreValue } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { MeasurementOf } from '../../model/schema/measurement'
import { attempted } from '../fit/outcome'
import { drawnPlaces, pickedValues } from '../intake/thinned'
import { type OffsetScanResult, offsetScanMfd } from '../offset/offsetScanMfd'
import { coordinateOf, detectorOf, scaleOf, signalsOf } from './measurementColumns'
import type { MeasurementResult } from './measurementResult'

export function evaluateOffset(measurement: MeasurementOf<'offset'>): MeasurementResult {
  const scale = scaleOf(measurement.stageScale)
  const detector = detectorOf(measurement.detectorExponent)
  const probeMfdUm = coreValue(measurement.probeMfd, 'mfd')
  const positionUm = coordinateOf(measurement.columns, 'position', scale.factor)
  const signals = signalsOf(measurement.columns, detector.factor).map((signal) => ({
    ...signal,
    outcome: attempted(() =>
      offsetScanMfd({
        positionUm,
        power: signal.values,
        probeMfdUm,
        probeMfdStandardUm: coreStandard(measurement.probeMfd, 'mfd'),
        stageScaleStandard: scale.standard,
        linearityStandard: detector.standard,
      }),
    ),
  }))
  return {
    method: 'offset',
    signals: signals.map(({ label, outcome }) => ({
      label,
      outcome: outcome.ok ? { ok: true, value: thinned(outcome.value) } : outcome,
    })),
    mfds: signals.flatMap(({ label, axis, outcome }) =>
      outcome.ok
        ? [
            {
              id: label,
              label,
              axis,
              valueUm: outcome.value.mfdUm,
              expandedUm: outcome.value.uncertaintyUm,
              method: `transverse-offset scan, ${label}, probe MFD ${probeMfdUm} µm`,
              budget: outcome.value.budget,
            },
          ]
        : [],
    ),
  }
}

function thinned(result: OffsetScanResult): OffsetScanResult {
  const places = drawnPlaces(result.profile.residual)
  return {
    ...result,
    profile: {
      positionUm: pickedValues(result.profile.positionUm, places),
      power: pickedValues(result.profile.power, places),
      fitted: pickedValues(result.profile.fitted, places),
      residual: pickedValues(result.profile.residual, places),
    },
  }
}
