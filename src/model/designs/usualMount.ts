// The mount that a design begins with.

import { quantityOf } from '../quantity/quantity'
import type { Mount } from '../schema/mount'

/** A glass block next to a chip on a ceramic carrier of equal height, aligned at 23 °C (common practice, no source). */
export function usualMount(): Mount {
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
