// Chain elements with the values a new one starts from.

import type { ElementOf, GapElement } from './candidate'
import { quantityOf } from './quantity'

/** A gap of a few micrometres, held as a good assembly station holds it (common practice, no source). */
export function newGapElement(id: string, mediumId: string): GapElement {
  return {
    kind: 'gap',
    id,
    mediumId,
    gap: quantityOf(3, 'um', 'estimate', 1),
    offsetX: quantityOf(0, 'um', 'estimate', 0.5),
    offsetY: quantityOf(0, 'um', 'estimate', 0.5),
    tiltX: quantityOf(0, 'deg', 'estimate', 0.3),
    tiltY: quantityOf(0, 'deg', 'estimate', 0.3),
    roll: quantityOf(0, 'deg', 'estimate', 0.5),
    nearFaceAngle: quantityOf(0, 'deg', 'data sheet'),
    farFaceAngle: quantityOf(0, 'deg', 'data sheet'),
    facePlane: 'x',
    pointing: 'refracted',
  }
}

/** A fusion splice of unlike fibres with core diffusion, about 0.1 dB (common practice, no source). */
export function newSpliceElement(id: string): ElementOf<'splice'> {
  return { kind: 'splice', id, basis: 'typed', loss: quantityOf(0.1, 'dB', 'estimate', 0.05) }
}

export function newStubElement(id: string, fibreId: string): ElementOf<'stub'> {
  return { kind: 'stub', id, fibreId, length: quantityOf(10, 'mm', 'estimate') }
}
