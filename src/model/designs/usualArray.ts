// A fibre array as it is usually delivered: fibres in V-grooves of glass or silicon.

import { setCoreHalfWidth } from '../quantity/coreQuantity'
import { coreValue, type Quantity, quantityOf } from '../quantity/quantity'
import type { FibreArray } from '../schema/fibreArray'

const COMMON = 'Common practice, no source.'

/** Error of an outer core by the pitch alone, um. Common practice, no source. */
const OUTER_PITCH_ERROR_UM = 0.3

const typical = (plusMinusUm: number, share?: 'channel'): Quantity => ({
  ...quantityOf(0, 'um', 'estimate', {
    plusMinus: plusMinusUm,
    distribution: 'normal',
    ...(share && { share }),
  }),
  note: COMMON,
})

/** Cores within 0.5 um of their places, bow of 0.2 um, the pitch good to 0.3 um at the outer cores, normal; no source, common practice. */
export function usualArray(pitch: Quantity, channels: number): FibreArray {
  const own: Quantity = { ...quantityOf(pitch.value, pitch.unit, 'estimate'), note: COMMON }
  if (channels > 1) {
    own.tolerance = { plusMinus: 0, distribution: 'normal' }
    setCoreHalfWidth(
      own,
      'pitch',
      Math.min(coreValue(pitch, 'pitch') / 2, (2 * OUTER_PITCH_ERROR_UM) / (channels - 1)),
    )
  }
  return {
    pitch: own,
    coreX: typical(0.5, 'channel'),
    coreY: typical(0.5, 'channel'),
    bow: typical(0.2),
    aim: 'worst channel',
  }
}
