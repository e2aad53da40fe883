// Samples of any number of channels as one grey value a pixel.

import { InputError } from '../../numerics/inputError'

/** One channel as it is; two are grey and alpha; three or four are colour, without and with alpha. */
export function greyOf(samples: ArrayLike<number>, count: number, channels: number) {
  if (samples.length < count * channels) {
    throw new InputError(
      'image data',
      `${samples.length} samples`,
      `${count * channels} samples for the size in the header`,
    )
  }
  const colours = channels >= 3 ? 3 : 1
  const pixels = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    let sum = 0
    for (let c = 0; c < colours; c++) sum += samples[i * channels + c] as number
    pixels[i] = sum / colours
  }
  const notes: string[] = []
  if (colours === 3) notes.push('colour channels averaged')
  if (channels === 2 || channels === 4) notes.push('alpha channel dropped')
  return { pixels, notes }
}
