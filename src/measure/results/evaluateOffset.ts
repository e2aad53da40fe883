// A kept transverse-offset measurement: the unknown mode behind every power column.

import { coreValue } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { attempted } from '../../numerics/outcome'
import { pickedValues, plottedIndices } from '../intake/plotData'
import { type OffsetScanResult, offsetScanMfd } from '../offset/offsetScanMfd'
import { lineScans } from '../reading/lineScans'
import { coordinateOf, detectorOf, type Signal, scaleOf, signalsOf } from './measurementColumns'
import type { MeasurementResult } from './measurementResult'

export function evaluateOffset(measurement: MeasurementOf<'offset'>): MeasurementResult {
  const scale = scaleOf(measurement.stageScale)
  const detector = detectorOf(measurement.detectorExponent)
  const probeMfdUm = coreValue(measurement.probeMfd, 'mfd')
  const signals = linesOf(measurement, scale.factor, detector.factor).map(({ positionUm, ...signal }) => ({
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
      outcome: outcome.ok ? { ok: true, value: withFewPoints(outcome.value) } : outcome,
    })),
    mfds: signals.flatMap(({ label, axis, outcome }) =>
      outcome.ok
        ? [
            {
              id: label,
              label: signals.length === 1 ? 'MFD' : label,
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

interface LineSignal extends Signal {
  readonly positionUm: Float64Array
}

/** Every power column over its position, or over each of two line scans where the file holds two positions. */
function linesOf(
  { columns }: MeasurementOf<'offset'>,
  factor: number,
  detector: number,
): readonly LineSignal[] {
  const signals = signalsOf(columns, detector)
  const [x, y] = columns
    .filter(({ role }) => role === 'position')
    .map(({ values }) => unpackNumbers(values).map((value) => value * factor))
  const moves = (values: Float64Array) => values.some((value) => value !== values[0])
  if (x === undefined || y === undefined || !moves(x) || !moves(y)) {
    const positionUm =
      y !== undefined && x !== undefined && !moves(x) ? y : coordinateOf(columns, 'position', factor)
    return signals.map((signal) => ({ ...signal, positionUm }))
  }
  const lines = lineScans(x, y)
  if (lines === null) {
    throw new InputError(
      'position layout',
      'spread over an area',
      'on one or two lines along x and y; choose the kind Raster scan',
    )
  }
  return signals.flatMap((signal) =>
    lines.map(({ axis, rows }) => ({
      label: `${signal.label} along ${axis}`,
      axis,
      values: Float64Array.from(rows, (row) => signal.values[row] as number),
      positionUm: Float64Array.from(rows, (row) => (axis === 'x' ? x : y)[row] as number),
    })),
  )
}

function withFewPoints(result: OffsetScanResult): OffsetScanResult {
  const indices = plottedIndices(result.profile.residual)
  return {
    ...result,
    profile: {
      positionUm: pickedValues(result.profile.positionUm, indices),
      power: pickedValues(result.profile.power, indices),
      fitted: pickedValues(result.profile.fitted, indices),
      residual: pickedValues(result.profile.residual, indices),
    },
  }
}
