// Chain elements with the values a new one starts from.

import { type Quantity, quantityOf } from '../quantity/quantity'
import type { Device, ElementOf, GapElement, LensPose, RelayElement } from '../schema/candidate'
import type { Project } from '../schema/project'

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
    nearFaceAngle: quantityOf(0, 'deg', 'estimate'),
    farFaceAngle: quantityOf(0, 'deg', 'estimate'),
    facePlane: 'x',
    pointing: 'refracted',
    pinned: ['gap'],
  }
}

/** A fusion splice of unlike fibres with core diffusion, about 0.1 dB (common practice, no source). */
export function newSpliceElement(id: string): ElementOf<'splice'> {
  return { kind: 'splice', id, basis: 'typed', loss: quantityOf(0.1, 'dB', 'estimate', 0.05) }
}

export function newStubElement(id: string, fibreId: string): ElementOf<'stub'> {
  return { kind: 'stub', id, fibreId, length: quantityOf(10, 'mm', 'estimate') }
}

/** A lens held to a micrometre and a tenth of a degree, as actively aligned lenses are (common practice, no source). */
export function newLensPose(): LensPose {
  return {
    offsetX: quantityOf(0, 'um', 'estimate', 1),
    offsetY: quantityOf(0, 'um', 'estimate', 1),
    offsetZ: quantityOf(0, 'um', 'estimate', 2),
    tiltX: quantityOf(0, 'deg', 'estimate', 0.1),
    tiltY: quantityOf(0, 'deg', 'estimate', 0.1),
  }
}

/** Two lenses with space for a device between them; the distances are set by the search for the optimum. */
export function newRelayElement(
  id: string,
  mediumId: string,
  lens1Id: string,
  lens2Id: string,
): RelayElement {
  return {
    kind: 'relay',
    id,
    mediumId,
    lens1Id,
    lens2Id,
    frontGap: quantityOf(250, 'um', 'estimate', 2),
    stretch: quantityOf(5, 'mm', 'estimate', 0.05),
    backGap: quantityOf(250, 'um', 'estimate', 0.5),
    lens1: newLensPose(),
    lens2: newLensPose(),
    offsetX: quantityOf(0, 'um', 'estimate', 0.5),
    offsetY: quantityOf(0, 'um', 'estimate', 0.5),
    tiltX: quantityOf(0, 'deg', 'estimate', 0.2),
    tiltY: quantityOf(0, 'deg', 'estimate', 0.2),
    roll: quantityOf(0, 'deg', 'estimate', 0.5),
    nearFaceAngle: quantityOf(0, 'deg', 'estimate'),
    farFaceAngle: quantityOf(0, 'deg', 'estimate'),
    facePlane: 'x',
  }
}

/** A miniature isolator, as catalogues list them (common practice, no source). */
export function newIsolator(): Device {
  return {
    name: 'Isolator',
    loss: quantityOf(0.3, 'dB', 'estimate', 0.1),
    length: quantityOf(2.5, 'mm', 'estimate'),
    index: quantityOf(2, '1', 'estimate'),
    clearAperture: quantityOf(900, 'um', 'estimate'),
    isolation: quantityOf(30, 'dB', 'estimate'),
    rotation: quantityOf(45, 'deg', 'estimate'),
  }
}

/** The isolator that the requirements ask for, by its length, aperture and isolation; a usual one where they ask for none. */
export function requiredIsolator({ isolator }: Project['requirements']): Device {
  const usual = newIsolator()
  if (isolator === undefined) return usual
  const plain = ({ value, unit, provenance }: Quantity): Quantity => ({ value, unit, provenance })
  return {
    ...usual,
    length: plain(isolator.length),
    clearAperture: plain(isolator.aperture),
    ...(isolator.isolation && { isolation: plain(isolator.isolation) }),
  }
}

/** A thin-film filter on glass, as catalogues list them (common practice, no source). */
export function newFilter(): Device {
  return {
    name: 'Filter',
    loss: quantityOf(0.2, 'dB', 'estimate', 0.1),
    length: quantityOf(1, 'mm', 'estimate'),
    index: quantityOf(1.45, '1', 'estimate'),
    clearAperture: quantityOf(1000, 'um', 'estimate'),
  }
}

/** A thin polarising glass plate; the loss is that of the state it lets pass (common practice, no source). */
export function newPolariser(): Device {
  return {
    name: 'Polariser',
    loss: quantityOf(0.1, 'dB', 'estimate', 0.05),
    length: quantityOf(0.2, 'mm', 'estimate'),
    index: quantityOf(1.52, '1', 'estimate'),
    clearAperture: quantityOf(1000, 'um', 'estimate'),
  }
}

/** Drift of a holder after alignment, 0.2 um either way (common practice, no source). */
export function newDrift(): NonNullable<GapElement['bondShift']> {
  const along = () => quantityOf(0, 'um', 'estimate', { plusMinus: 0.2, distribution: 'normal' })
  return { x: along(), y: along(), z: along() }
}

export function newTaperChipElement(id: string, converterId: string): ElementOf<'taper chip'> {
  return { kind: 'taper chip', id, converterId }
}
