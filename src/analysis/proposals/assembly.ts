// How a proposed design is put together: each set axis to what the station holds, a fibre array where there are several
// channels, and a usual mount.

import { coreValue, type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { Candidate, ChainElement, LensPlace } from '../../model/schema/candidate'
import type { FibreArray } from '../../model/schema/fibreArray'
import type { Mount } from '../../model/schema/mount'
import type { Requirements } from '../../model/schema/requirements'

const DEG = 180 / Math.PI

const within = (quantity: Quantity, plusMinus: number): Quantity => ({
  ...quantity,
  tolerance: {
    ...(quantity.tolerance ?? { distribution: 'uniform' }),
    plusMinus,
  },
})

/** Roll of a row of fibres: what both outer channels leave when each is set as well as the station sets one, degrees. */
function rollDeg({ channels, pitch, station }: Requirements): number | null {
  if (channels < 2) return null
  const halfRowUm = ((channels - 1) * coreValue(pitch, 'pitch')) / 2
  return Number((DEG * Math.atan(coreValue(station.lateral, 'lateralAccuracy') / halfRowUm)).toPrecision(2))
}

/** A chain with every free-space joint and lens held as the station holds it. */
export function heldByStation(
  chain: readonly ChainElement[],
  requirements: Requirements,
): readonly ChainElement[] {
  const lateralUm = coreValue(requirements.station.lateral, 'lateralAccuracy')
  const axialUm = coreValue(requirements.station.axial, 'lateralAccuracy')
  const angularDeg = Number((DEG * coreValue(requirements.station.angular, 'angularAccuracy')).toPrecision(6))
  const roll = rollDeg(requirements)
  return chain.map((element): ChainElement => {
    if (element.kind !== 'gap' && element.kind !== 'relay') return element
    const pose = {
      offsetX: within(element.offsetX, lateralUm),
      offsetY: within(element.offsetY, lateralUm),
      tiltX: within(element.tiltX, angularDeg),
      tiltY: within(element.tiltY, angularDeg),
      roll: roll === null ? element.roll : within(element.roll, roll),
    }
    if (element.kind === 'gap') return { ...element, ...pose, gap: within(element.gap, axialUm) }
    const place = (lens: LensPlace): LensPlace => ({
      offsetX: within(lens.offsetX, lateralUm),
      offsetY: within(lens.offsetY, lateralUm),
      offsetZ: within(lens.offsetZ, axialUm),
      tiltX: within(lens.tiltX, angularDeg),
      tiltY: within(lens.tiltY, angularDeg),
    })
    return {
      ...element,
      ...pose,
      frontGap: within(element.frontGap, axialUm),
      backGap: within(element.backGap, axialUm),
      lens1: place(element.lens1),
      lens2: place(element.lens2),
    }
  })
}

/** A glass block with V-grooves: core position within 0.5 um, normal (common practice, no source). */
export function usualArray(pitch: Quantity): FibreArray {
  const cores = (): Quantity =>
    quantityOf(0, 'um', 'estimate', {
      plusMinus: 0.5,
      distribution: 'normal',
      share: 'channel',
    })
  return {
    pitch: { ...quantityOf(pitch.value, pitch.unit, 'estimate') },
    coreX: cores(),
    coreY: cores(),
    bow: quantityOf(0, 'um', 'estimate', {
      plusMinus: 0.2,
      distribution: 'normal',
    }),
    aim: 'worst channel',
  }
}

/** A glass block beside a chip on a ceramic carrier of equal height, aligned at 23 °C (common practice, no source). */
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

/** Array and mount of a proposed design. A relay's lens arrays carry its pitch instead of a block. */
export function surroundings(
  chain: readonly ChainElement[],
  requirements: Requirements,
  inputPitch: Quantity = requirements.pitch,
): Pick<Candidate, 'array' | 'mount'> {
  const inRow = requirements.channels > 1 && !chain.some(({ kind }) => kind === 'relay')
  return {
    mount: usualMount(),
    ...(inRow && { array: usualArray(inputPitch) }),
  }
}
