// A kept near-field image becomes a field: amplitudes are the roots of the counts above the dark level, the phase is
// assumed flat.

import { coreValue } from '../../model/quantity/quantity'
import type { MeasurementOf } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import { frameBackground } from '../nearField/imageBackground'
import type { FieldReading } from './fieldTable'

/** Counts less than so many deviations of the noise above the dark level are treated as dark. Common practice, no source. */
const NOISE_FLOOR = 3

/** Throws InputError for an image without light above its noise. */
export function readFieldImage(measurement: MeasurementOf<'image'>, wavelengthUm: number): FieldReading {
  const { width, height, binning } = measurement
  const pixels = unpackNumbers(measurement.pixels)
  const { level, noise } = frameBackground({ pixels, width, height })
  const floor = NOISE_FLOOR * noise
  const re = new Float64Array(width * height)
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const above = (pixels[row * width + column] as number) - level
      // The first row of an image is its top; y counts upwards.
      re[(height - 1 - row) * width + column] = above > floor ? Math.sqrt(above) : 0
    }
  }
  if (!re.some((value) => value > 0)) {
    throw new InputError(
      'image',
      'dark',
      `brighter than its noise (${significantText(noise, 3)} counts) in at least one pixel`,
    )
  }
  const pixelUm = coreValue(measurement.pixelPitch, 'pixelPitch') * binning
  return {
    field: {
      nx: width,
      ny: height,
      dxUm: pixelUm,
      dyUm: pixelUm,
      x0Um: 0,
      y0Um: 0,
      re,
      im: new Float64Array(width * height),
      wavelengthUm,
      index: 1,
    },
    notes: [
      'A camera records no phase; a flat phase is assumed.',
      `Amplitudes are the square roots of the counts above the dark level of ${significantText(level, 4)}; counts within ${significantText(floor, 3)} of it are taken as dark.`,
      'The top of the image is taken as +y, away from the chip.',
    ],
  }
}
