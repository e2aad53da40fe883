// The numbers of a relay: sizes, places and lenses, as they are where light meets them.

import type { RayMatrix } from '../../../optics/index'
import type { Mutable } from '../faces/faceNumbers'

export interface RelayLens {
  readonly matrix: RayMatrix
  readonly thicknessUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly offsetZUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
}

export interface RelayGeometry {
  readonly wavelengthUm: number
  readonly mediumIndex: number
  readonly emitterMfdXUm: number
  readonly emitterMfdYUm: number
  readonly waistXUm: number
  readonly waistYUm: number
  readonly receiverMfdXUm: number
  readonly receiverMfdYUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
  readonly rollRad: number
  readonly frontGapUm: number
  readonly stretchUm: number
  readonly backGapUm: number
  /** Where lens 2 or its holder touches the chip: it comes no nearer, whatever moves it. */
  readonly leastBackUm: number
  /** Length and index of the device in the stretch; 0 and 1 without one. */
  readonly deviceLengthUm: number
  readonly deviceIndex: number
  readonly lens1: RelayLens
  readonly lens2: RelayLens
}

/** The stretch as diffraction sees it: a slab shortens the path. */
export const effectiveStretchUm = (g: RelayGeometry, stretchUm: number): number =>
  Math.max(0, stretchUm - g.deviceLengthUm * (1 - 1 / g.deviceIndex))

// Distances with the lenses where they are; what would pass contact stops there.
const lens2ZUm = (g: RelayGeometry): number =>
  Math.min(g.lens2.offsetZUm, Math.max(0, g.backGapUm - g.leastBackUm))
export const frontGapOf = (g: RelayGeometry): number => Math.max(0, g.frontGapUm + g.lens1.offsetZUm)
export const stretchOf = (g: RelayGeometry): number =>
  Math.max(0, g.stretchUm - g.lens1.offsetZUm + lens2ZUm(g))
export const backGapOf = (g: RelayGeometry): number => Math.max(0, g.backGapUm - lens2ZUm(g))

export const spacings = (g: RelayGeometry) => ({
  frontGapUm: frontGapOf(g),
  stretchUm: stretchOf(g),
  backGapUm: backGapOf(g),
})

/** The same in a record that is made once and filled again for every simulated assembly. */
export type RelayRecord = Mutable<Omit<RelayGeometry, 'lens1' | 'lens2'>> & {
  readonly lens1: Mutable<RelayLens>
  readonly lens2: Mutable<RelayLens>
}

// Lengths begin as fractions, so that the record keeps its shape when they are.
const newLens = (): RelayRecord['lens1'] => ({
  matrix: { a: 1, b: 0, c: 0, d: 1 },
  thicknessUm: 0.5,
  offsetXUm: 0.5,
  offsetYUm: 0.5,
  offsetZUm: 0.5,
  tiltXRad: 0.5,
  tiltYRad: 0.5,
})

export const newRelayRecord = (): RelayRecord => ({
  wavelengthUm: 0.5,
  mediumIndex: 1.5,
  emitterMfdXUm: 0.5,
  emitterMfdYUm: 0.5,
  waistXUm: 0.5,
  waistYUm: 0.5,
  receiverMfdXUm: 0.5,
  receiverMfdYUm: 0.5,
  offsetXUm: 0.5,
  offsetYUm: 0.5,
  tiltXRad: 0.5,
  tiltYRad: 0.5,
  rollRad: 0.5,
  frontGapUm: 0.5,
  stretchUm: 0.5,
  backGapUm: 0.5,
  leastBackUm: 0.5,
  deviceLengthUm: 0.5,
  deviceIndex: 1.5,
  lens1: newLens(),
  lens2: newLens(),
})

/** A copy that may be changed. */
export const relayRecordOf = (g: RelayGeometry): RelayRecord => ({
  ...g,
  lens1: { ...g.lens1 },
  lens2: { ...g.lens2 },
})

const POSE_AXES = ['offsetXUm', 'offsetYUm', 'tiltXRad', 'tiltYRad'] as const

/** Whether guides and lenses lie on one axis. */
export function isInLine(g: RelayGeometry): boolean {
  return POSE_AXES.every((axis) => g[axis] === 0 && g.lens1[axis] === 0 && g.lens2[axis] === 0)
}

interface ChiefRay {
  readonly heightUm: number
  readonly slopeRad: number
}

/** The image of the first guide: height and slope of its axis along x and y. */
interface ChiefRays {
  readonly chiefX: ChiefRay
  readonly chiefY: ChiefRay
}

/** Whether image and guides are displaced and tilted as in the nominal relay. */
export function acrossAlike(
  g: RelayGeometry,
  chief: ChiefRays,
  nominal: RelayGeometry,
  nominalChief: ChiefRays,
): boolean {
  return (
    chief.chiefX.heightUm === nominalChief.chiefX.heightUm &&
    chief.chiefY.heightUm === nominalChief.chiefY.heightUm &&
    chief.chiefX.slopeRad === nominalChief.chiefX.slopeRad &&
    chief.chiefY.slopeRad === nominalChief.chiefY.slopeRad &&
    POSE_AXES.every((axis) => g.lens1[axis] === nominal.lens1[axis] && g.lens2[axis] === nominal.lens2[axis])
  )
}
