// What surrounds a proposed design: a fibre array where there are several channels, and a usual mount.

import { usualArray } from '../../model/designs/usualArray'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Mount } from '../../model/schema/mount'
import type { Requirements } from '../../model/schema/requirements'

/** A glass block next to a chip on a ceramic carrier of equal height, aligned at 23 °C (common practice, no source). */
function usualMount(): Mount {
  return {
    assemblyTemperature: quantityOf(23, 'degC', 'estimate'),
    fibreSide: [
      {
        expansion: { kind: 'material', material: 'borosilicate glass' },
        axis: 'y',
        length: quantityOf(3, 'mm', 'estimate'),
      },
    ],
    chipSide: [
      {
        expansion: { kind: 'material', material: 'alumina' },
        axis: 'y',
        length: quantityOf(2.3, 'mm', 'estimate'),
      },
      {
        expansion: { kind: 'material', material: 'silicon' },
        axis: 'y',
        length: quantityOf(0.7, 'mm', 'estimate'),
      },
    ],
  }
}

/** Array and mount of a proposed design. A relay's lens arrays carry its pitch instead of a fibre array. */
export function surroundings(
  chain: readonly ChainElement[],
  requirements: Requirements,
  inputPitch: Quantity = requirements.pitch,
): Pick<Candidate, 'array' | 'mount'> {
  const inRow = requirements.channels > 1 && !chain.some(({ kind }) => kind === 'relay')
  return {
    mount: usualMount(),
    ...(inRow && { array: usualArray(inputPitch, requirements.channels) }),
  }
}
