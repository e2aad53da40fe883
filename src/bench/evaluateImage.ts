// A kept near-field image: second moments, best Gaussian, cuts and knife edges side by side.

import type { MeasurementOf } from '../model/measurement'
import { coreValue } from '../model/quantity'
import { coreStandard } from '../model/standardUncertainty'
import { unpackNumbers } from '../numerics/compactNumbers'
import { gaussianity } from './gaussianity'
import { fitImageGaussian, type ImageGaussian, lineCuts } from './imageFit'
import { knifeEdgeWidth } from './knifeEdge'
import type { MeasurementResult, MfdValue } from './measurementResult'
import { type ImageInput, type SecondMomentResult, secondMomentWidths } from './secondMomentWidths'
import { drawnImage } from './thinned'
import { combine, typeA, typeB } from './uncertaintyBudget'

export function evaluateImage(measurement: MeasurementOf<'image'>): MeasurementResult {
  const { width, height, fullScale, binning } = measurement
  const pitchUm = coreValue(measurement.pixelPitch, 'pixelPitch')
  const input: ImageInput = {
    pixels: unpackNumbers(measurement.pixels),
    width,
    height,
    pixelUm: pitchUm * binning,
    ...(fullScale === undefined ? {} : { fullScale }),
    pixelScaleStandard: coreStandard(measurement.pixelPitch, 'pixelPitch') / pitchUm,
  }
  const moments = secondMomentWidths(input)
  const fit = fitImageGaussian(input, moments)
  const minorRad = moments.azimuthRad + Math.PI / 2
  return {
    method: 'image',
    moments,
    fit,
    gaussianity: gaussianity(fit.residualMap.values, 1),
    cuts: lineCuts(input, fit),
    knifeEdges: [
      { axis: 'major', width: knifeEdgeWidth(input, moments, moments.azimuthRad) },
      { axis: 'minor', width: knifeEdgeWidth(input, moments, minorRad) },
    ],
    view: drawnImage(input.pixels, width, height, input.pixelUm),
    mfds: valuesOf(moments, fit, input.pixelScaleStandard ?? 0),
  }
}

function valuesOf(moments: SecondMomentResult, fit: ImageGaussian, scaleStandard: number): MfdValue[] {
  const xIsMajor = moments.widthXUm >= moments.widthYUm
  const second = (
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
    expandedUm: moments.budget[of].expandedUm,
    method: `near-field image, ${label}`,
    budget: moments.budget[of],
  })
  const fitted = (of: 'major' | 'minor', valueUm: number, standardUm: number): MfdValue => {
    const budget = combine([
      typeA('fit', standardUm, Infinity),
      typeB('pixel scale', valueUm * scaleStandard),
    ])
    const label = `Gaussian fit, ${of} axis`
    return {
      id: `fit ${of}`,
      label,
      axis: null,
      valueUm,
      expandedUm: budget.expandedUm,
      method: `near-field image, ${label}`,
      budget,
    }
  }
  return [
    second('d4s major', 'D4σ, major axis', null, moments.majorUm, 'major'),
    second('d4s minor', 'D4σ, minor axis', null, moments.minorUm, 'minor'),
    fitted('major', fit.majorUm, fit.majorStandardUm),
    fitted('minor', fit.minorUm, fit.minorStandardUm),
    second('d4s x', 'D4σ, along the rows', 'x', moments.widthXUm, xIsMajor ? 'major' : 'minor'),
    second('d4s y', 'D4σ, down the columns', 'y', moments.widthYUm, xIsMajor ? 'minor' : 'major'),
  ]
}
