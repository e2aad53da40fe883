// A kept raster: the unknown mode with its axes.

import { coreValue } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { gaussianity } from '../fit/gaussianity'
import { rasterToPlot } from '../intake/plotData'
import { rasterScanMfd } from '../offset/rasterScanMfd'
import { lineScans } from '../reading/lineScans'
import { detectorOf, scaleOf, signalsOf } from './measurementColumns'
import type { MeasurementResult, MfdValue } from './measurementResult'

/** The first power column over the first two positions. */
export function evaluateRaster(measurement: MeasurementOf<'raster'>): MeasurementResult {
  const scale = scaleOf(measurement.stageScale)
  const [first, second] = measurement.columns.filter((column) => column.role === 'position')
  if (first === undefined || second === undefined) {
    throw new InputError('number of position columns', first === undefined ? 0 : 1, '2')
  }
  const scaled = (column: typeof first) => unpackNumbers(column.values).map((value) => value * scale.factor)
  const [xUm, yUm] = [scaled(first), scaled(second)]
  if (lineScans(xUm, yUm) !== null) {
    throw new InputError(
      'position layout',
      'on lines along x and y',
      'spread over an area for a raster; choose the kind Transverse-offset scan, which evaluates each line',
    )
  }
  const detector = detectorOf(measurement.detectorExponent)
  const power = signalsOf(measurement.columns, detector.factor)[0]?.values ?? new Float64Array(0)
  const probeMfdUm = coreValue(measurement.probeMfd, 'mfd')
  const { residual, ...result } = rasterScanMfd({
    xUm,
    yUm,
    power,
    probeMfdUm,
    probeMfdStandardUm: coreStandard(measurement.probeMfd, 'mfd'),
    stageScaleStandard: scale.standard,
    linearityStandard: detector.standard,
  })
  const value = (
    id: string,
    label: string,
    axis: MfdValue['axis'],
    valueUm: number,
    of: 'major' | 'minor',
  ): MfdValue => ({
    id,
    label,
    axis,
    valueUm,
    expandedUm: result.budget[of].expandedUm,
    method: `raster scan, ${label}, probe MFD ${probeMfdUm} µm`,
    budget: result.budget[of],
  })
  const xIsMajor = result.mfdXUm >= result.mfdYUm
  const plotted = rasterToPlot(xUm, yUm, power)
  return {
    method: 'raster',
    result,
    gaussianity: gaussianity(residual, result.peakPower),
    points: {
      xUm: plotted.x,
      yUm: plotted.y,
      power: plotted.values,
      residual: rasterToPlot(xUm, yUm, residual).values,
    },
    mfds: [
      value('x', 'along stage x', 'x', result.mfdXUm, xIsMajor ? 'major' : 'minor'),
      value('y', 'along stage y', 'y', result.mfdYUm, xIsMajor ? 'minor' : 'major'),
      value('major', 'major axis', null, result.majorUm, 'major'),
      value('minor', 'minor axis', null, result.minorUm, 'minor'),
    ],
  }
}
