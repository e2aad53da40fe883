// Warnings with a far-field result, as complete sentences.

import { fixedText, significantText } from '../../numerics/numberText'
import type { FarFieldResult } from './farFieldMfd'

const percent = (share: number) => `${significantText(100 * Math.abs(share), 2)} %`
const degrees = (angleRad: number) => `${fixedText((Math.abs(angleRad) * 180) / Math.PI, 1)}°`

const FAR_FIELD_LIMITS = {
  /** Truncation estimate from which the result is called doubtful. */
  truncation: 0.003,
  /** Difference of the halves, as a fraction. */
  asymmetry: 0.02,
  /** Between both directions of travel: 0.05°. */
  backlashRad: 8.7e-4,
  /** Floor relative to peak. */
  floor: 1e-3,
  /** MFD in wavelengths below which the scalar integral is doubtful. */
  mfdInWavelengths: 1.5,
} as const

export function farFieldWarnings(
  result: Omit<FarFieldResult, 'warnings'>,
  wavelengthUm: number,
  misfit: number,
): string[] {
  const warnings: string[] = []
  const { positive, negative } = result.halvesUm
  if (result.widening !== null) warnings.push(result.widening.sentence)
  if (result.backlashRad !== null && Math.abs(result.backlashRad) > FAR_FIELD_LIMITS.backlashRad) {
    warnings.push(
      `The two directions of travel are ${degrees(result.backlashRad)} apart (backlash of the rotation stage); the interval allows for it.`,
    )
  }
  const floor = result.floorPower / result.peakPower
  if (!(Math.abs(result.truncationBias) <= FAR_FIELD_LIMITS.truncation)) {
    const end = `The scan ends at ${degrees(result.limitRad)} from the axis, where the far field is not yet small: the integral overestimates the MFD by about ${percent(result.truncationBias)}`
    warnings.push(
      result.truncationIsCorrected
        ? `${end}. The result is corrected for this; a scan to a wider angle needs a smaller correction.`
        : `${end}, which is too large to correct. Scan to a wider angle.`,
    )
  }
  if (Math.abs(positive - negative) > FAR_FIELD_LIMITS.asymmetry * result.petermann2MfdUm) {
    warnings.push(
      `The two halves give ${fixedText(positive, 3)} and ${fixedText(negative, 3)} µm: the scan is asymmetric (tilted mode, stray light, or a rotation axis offset from the facet).`,
    )
  }
  if (floor > FAR_FIELD_LIMITS.floor) {
    warnings.push(
      `The floor is ${fixedText(-10 * Math.log10(floor), 0)} dB below the peak; about 50 dB is needed because the integral weights the wings.`,
    )
  }
  if (result.petermann2MfdUm < FAR_FIELD_LIMITS.mfdInWavelengths * wavelengthUm) {
    warnings.push(
      'The mode size is close to the wavelength: the scalar far-field integral gives a nominal value here, not the true mode width.',
    )
  }
  if (misfit > 10) {
    warnings.push(
      'Neither a Gaussian nor a step-index mode describes this far field: floor and truncation estimates are rough.',
    )
  }
  return warnings
}
