// A kept near-field image: second moments, best Gaussian, cuts and knife edges side by side.

import { coreValue } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { gaussianity } from '../fit/gaussianity'
import { combine, typeA, typeB } from '../fit/uncertaintyBudget'
import { imagePartToPlot } from '../intake/plotData'
import { fitImageGaussian, type ImageGaussian, lineCuts } from '../nearField/imageFit'
import { knifeEdgeWidth } from '../nearField/knifeEdge'
import {
  type ImageInput,
  ROUNDING,
  type SecondMomentResult,
  secondMomentWidths,
} from '../nearField/secondMomentWidths'
import { detectorOf, withoutExponent } from './measurementColumns'
import type { MeasurementResult, MfdValue } from './measurementResult'

export function evaluateImage(measurement: MeasurementOf<'image'>): MeasurementResult {
  const { width, height, fullScale, binning } = measurement
  const pitchUm = coreValue(measurement.pixelPitch, 'pixelPitch')
  const detector = detectorOf(measurement.detectorExponent)
  const input: ImageInput = {
    pixels: withoutExponent(unpackNumbers(measurement.pixels), detector.factor),
    width,
    height,
    pixelUm: pitchUm * binning,
    ...(fullScale === undefined ? {} : { fullScale: fullScale ** (1 / detector.factor) }),
    linearityStandard: detector.standard,
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
    view: imagePartToPlot(input.pixels, width, height, input.pixelUm, {
      xUm: moments.centroidXUm,
      yUm: moments.centroidYUm,
      halfUm: DRAWN_HALF_SIDE * moments.majorUm,
    }),
    mfds: valuesOf(moments, fit, input),
  }
}

/** In major widths: what the aperture of three widths takes in. */
const DRAWN_HALF_SIDE = 1.5
/** A fit weighs the wings less than second moments do: half as much, found with synthetic images. */
const ROUNDING_IN_FIT = 0.5

function valuesOf(moments: SecondMomentResult, fit: ImageGaussian, input: ImageInput): MfdValue[] {
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
    const rounding = moments.budget[of].contributions.find((part) => part.source === ROUNDING)
    const budget = combine([
      typeA('fit', standardUm, Infinity),
      typeB(ROUNDING, (rounding?.standardUm ?? 0) * ROUNDING_IN_FIT),
      typeB('pixel scale', valueUm * (input.pixelScaleStandard ?? 0)),
      typeB('detector linearity', (valueUm * (input.linearityStandard ?? 0)) / 2),
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
