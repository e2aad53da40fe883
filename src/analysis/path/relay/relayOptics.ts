// What a relay does to one beam: matrices from end face to end face, beam sizes at the apertures, the chief ray
// through decentred and tilted lenses, and the joint that the image makes with the far guide.

import {
  chainMatrices,
  freeSpace,
  type GaussianJoint,
  type PlacedBeam,
  type Ray,
  type RayMatrix,
  transformBeam,
} from '../../../optics/index'
import type { Mutable } from '../faces/faceNumbers'
import {
  backGapOf,
  effectiveStretchUm,
  frontGapOf,
  type RelayGeometry,
  type RelayLens,
  stretchOf,
} from './relayGeometry'

/** The beam where something may clip it: its larger radii there, and how far its centre is off the aperture's. */
export interface ApertureBeam {
  readonly radiusXUm: number
  readonly radiusYUm: number
  readonly offXUm: number
  readonly offYUm: number
}

export interface RelayState {
  readonly lens1: ApertureBeam
  readonly device: ApertureBeam
  readonly lens2: ApertureBeam
  /** The image behind lens 2, waist distances counted from its last face. */
  readonly imageX: PlacedBeam
  readonly imageY: PlacedBeam
  /** The chief ray at the last face of lens 2. */
  readonly chiefX: Ray
  readonly chiefY: Ray
  readonly frontGapUm: number
  readonly stretchUm: number
  readonly backGapUm: number
}

type RelayStateRecord = Mutable<
  Pick<RelayState, 'imageX' | 'imageY' | 'frontGapUm' | 'stretchUm' | 'backGapUm'>
> & {
  readonly [K in 'lens1' | 'device' | 'lens2' | 'chiefX' | 'chiefY']: Mutable<RelayState[K]>
}

const newAperture = (): Mutable<ApertureBeam> => ({
  radiusXUm: 0.5,
  radiusYUm: 0.5,
  offXUm: 0.5,
  offYUm: 0.5,
})
const newRay = (): Mutable<Ray> => ({ heightUm: 0.5, slopeRad: 0.5 })
const NO_BEAM: PlacedBeam = { waistRadiusUm: 0.5, waistDistanceUm: 0.5, wavelengthUm: 0.5, index: 1.5 }

/** A state to be filled. */
export const newRelayState = (): RelayStateRecord => ({
  lens1: newAperture(),
  device: newAperture(),
  lens2: newAperture(),
  imageX: NO_BEAM,
  imageY: NO_BEAM,
  chiefX: newRay(),
  chiefY: newRay(),
  frontGapUm: 0.5,
  stretchUm: 0.5,
  backGapUm: 0.5,
})

// Matrices up to the planes of the relay, along the path: overwritten for every relay. The products of chainMatrices are written
// out, because this runs for every simulated assembly.
const unit = (): Mutable<RayMatrix> => ({ a: 1, b: 0.5, c: 0.5, d: 1 })
const lens1Front = unit()
const lens1Back = unit()
const middle = unit()
const lens2Front = unit()
const lens2Back = unit()

function then(m: RayMatrix, next: RayMatrix, out: Mutable<RayMatrix>): void {
  out.a = next.a * m.a + next.b * m.c
  out.b = next.a * m.b + next.b * m.d
  out.c = next.c * m.a + next.d * m.c
  out.d = next.c * m.b + next.d * m.d
}
function thenSpace(m: RayMatrix, lengthUm: number, out: Mutable<RayMatrix>): void {
  out.a = m.a + lengthUm * m.c
  out.b = m.b + lengthUm * m.d
  out.c = m.c
  out.d = m.d
}

/** Fills the matrices; returns half the length of the stretch, um. */
function fillPlanes(g: RelayGeometry, frontGapUm: number, stretchUm: number): number {
  const halfUm = effectiveStretchUm(g, stretchUm) / 2
  lens1Front.a = 1
  lens1Front.b = frontGapUm
  lens1Front.c = 0
  lens1Front.d = 1
  then(lens1Front, g.lens1.matrix, lens1Back)
  thenSpace(lens1Back, halfUm, middle)
  thenSpace(middle, halfUm, lens2Front)
  then(lens2Front, g.lens2.matrix, lens2Back)
  return halfUm
}

/** Radius of a beam behind a matrix, from the radius and place of its waist before it. */
function radiusAt(m: RayMatrix, mfdUm: number, waistUm: number, wavelengthUm: number, index: number): number {
  const rayleigh = (Math.PI * index * mfdUm * mfdUm) / (4 * wavelengthUm)
  const z = -waistUm
  const across = m.a * z + m.b
  const along = m.a * rayleigh
  return ((mfdUm / 2) * Math.sqrt(across * across + along * along)) / rayleigh
}

/** A ray of one plane, and how far it is off the middle of the lens that it went through last. */
const chief = { heightUm: 0.5, slopeRad: 0.5, offUm: 0.5 }

function chiefAlong(lengthUm: number): void {
  chief.heightUm += lengthUm * chief.slopeRad
}

/** As throughDisplaced. */
function chiefThrough({ matrix: m, thicknessUm }: RelayLens, ownUm: number, tiltRad: number): void {
  const half = (tiltRad * thicknessUm) / 2
  const height = chief.heightUm - (ownUm - half)
  const slope = chief.slopeRad - tiltRad
  const before = chief.heightUm - ownUm
  chief.heightUm = m.a * height + m.b * slope + ownUm + half
  chief.slopeRad = m.c * height + m.d * slope + tiltRad
  const behind = chief.heightUm - ownUm
  chief.offUm = Math.abs(before) > Math.abs(behind) ? before : behind
}

/** Fills in the chief ray at the middle of lens 1, the middle of the stretch, the middle of lens 2 and its exit. */
function fillChiefX(g: RelayGeometry, frontGapUm: number, halfUm: number, state: RelayStateRecord): void {
  chief.heightUm = g.offsetXUm
  chief.slopeRad = g.tiltXRad
  chiefAlong(frontGapUm)
  chiefThrough(g.lens1, g.lens1.offsetXUm, g.lens1.tiltXRad)
  state.lens1.offXUm = chief.offUm
  chiefAlong(halfUm)
  state.device.offXUm = chief.heightUm
  chiefAlong(halfUm)
  chiefThrough(g.lens2, g.lens2.offsetXUm, g.lens2.tiltXRad)
  state.lens2.offXUm = chief.offUm
  state.chiefX.heightUm = chief.heightUm
  state.chiefX.slopeRad = chief.slopeRad
}

/** The same in the other plane. */
function fillChiefY(g: RelayGeometry, frontGapUm: number, halfUm: number, state: RelayStateRecord): void {
  chief.heightUm = g.offsetYUm
  chief.slopeRad = g.tiltYRad
  chiefAlong(frontGapUm)
  chiefThrough(g.lens1, g.lens1.offsetYUm, g.lens1.tiltYRad)
  state.lens1.offYUm = chief.offUm
  chiefAlong(halfUm)
  state.device.offYUm = chief.heightUm
  chiefAlong(halfUm)
  chiefThrough(g.lens2, g.lens2.offsetYUm, g.lens2.tiltYRad)
  state.lens2.offYUm = chief.offUm
  state.chiefY.heightUm = chief.heightUm
  state.chiefY.slopeRad = chief.slopeRad
}

const emitted: Mutable<PlacedBeam> = { ...NO_BEAM }

/** The emitter's mode of one plane behind lens 2. */
function image(g: RelayGeometry, mfdUm: number, waistUm: number): PlacedBeam {
  emitted.waistRadiusUm = mfdUm / 2
  emitted.waistDistanceUm = waistUm
  emitted.wavelengthUm = g.wavelengthUm
  emitted.index = g.mediumIndex
  return transformBeam(lens2Back, emitted)
}

/** Fills in the whole relay at one set of numbers. */
export function fillRelayState(g: RelayGeometry, state: RelayStateRecord): void {
  const { wavelengthUm, mediumIndex, emitterMfdXUm: mfdX, emitterMfdYUm: mfdY, waistXUm, waistYUm } = g
  state.frontGapUm = frontGapOf(g)
  state.stretchUm = stretchOf(g)
  state.backGapUm = backGapOf(g)
  const halfUm = fillPlanes(g, state.frontGapUm, state.stretchUm)
  fillChiefX(g, state.frontGapUm, halfUm, state)
  fillChiefY(g, state.frontGapUm, halfUm, state)
  const { lens1, device, lens2 } = state
  lens1.radiusXUm = Math.max(
    radiusAt(lens1Front, mfdX, waistXUm, wavelengthUm, mediumIndex),
    radiusAt(lens1Back, mfdX, waistXUm, wavelengthUm, mediumIndex),
  )
  lens1.radiusYUm = Math.max(
    radiusAt(lens1Front, mfdY, waistYUm, wavelengthUm, mediumIndex),
    radiusAt(lens1Back, mfdY, waistYUm, wavelengthUm, mediumIndex),
  )
  device.radiusXUm = radiusAt(middle, mfdX, waistXUm, wavelengthUm, mediumIndex)
  device.radiusYUm = radiusAt(middle, mfdY, waistYUm, wavelengthUm, mediumIndex)
  lens2.radiusXUm = Math.max(
    radiusAt(lens2Front, mfdX, waistXUm, wavelengthUm, mediumIndex),
    radiusAt(lens2Back, mfdX, waistXUm, wavelengthUm, mediumIndex),
  )
  lens2.radiusYUm = Math.max(
    radiusAt(lens2Front, mfdY, waistYUm, wavelengthUm, mediumIndex),
    radiusAt(lens2Back, mfdY, waistYUm, wavelengthUm, mediumIndex),
  )
  state.imageX = image(g, mfdX, waistXUm)
  state.imageY = image(g, mfdY, waistYUm)
}

/** The whole relay at one set of numbers. */
export function relayState(g: RelayGeometry): RelayState {
  const state = newRelayState()
  fillRelayState(g, state)
  return state
}

/**
 * The relay as light from the far guide meets it, with everything centred and upright; `backwards` is the matrix of a lens run the
 * other way. The far guide's mode has its waist at its face.
 */
export function reversedRelay(
  g: RelayGeometry,
  { frontGapUm, stretchUm, backGapUm }: Pick<RelayState, 'frontGapUm' | 'stretchUm' | 'backGapUm'>,
  backwards: (matrix: RayMatrix) => RayMatrix,
): RelayGeometry {
  const turned = ({ matrix, thicknessUm }: RelayLens): RelayLens => ({
    matrix: backwards(matrix),
    thicknessUm,
    offsetXUm: 0,
    offsetYUm: 0,
    offsetZUm: 0,
    tiltXRad: 0,
    tiltYRad: 0,
  })
  return {
    ...g,
    emitterMfdXUm: g.receiverMfdXUm,
    emitterMfdYUm: g.receiverMfdYUm,
    waistXUm: 0,
    waistYUm: 0,
    receiverMfdXUm: g.emitterMfdXUm,
    receiverMfdYUm: g.emitterMfdYUm,
    offsetXUm: 0,
    offsetYUm: 0,
    tiltXRad: 0,
    tiltYRad: 0,
    frontGapUm: backGapUm,
    stretchUm,
    backGapUm: frontGapUm,
    lens1: turned(g.lens2),
    lens2: turned(g.lens1),
  }
}

/** Ray matrix from the near end face to the last face of lens 2. */
export function relayMatrix(
  g: RelayGeometry,
  { frontGapUm, stretchUm }: Pick<RelayState, 'frontGapUm' | 'stretchUm'>,
): RayMatrix {
  fillPlanes(g, frontGapUm, stretchUm)
  return { ...lens2Back }
}

/** The nearly parallel beam behind lens 1, x. */
export function collimatedBeam(g: RelayGeometry, { frontGapUm }: Pick<RelayState, 'frontGapUm'>): PlacedBeam {
  return transformBeam(chainMatrices([freeSpace(frontGapUm), g.lens1.matrix]), {
    waistRadiusUm: g.emitterMfdXUm / 2,
    waistDistanceUm: g.waistXUm,
    wavelengthUm: g.wavelengthUm,
    index: g.mediumIndex,
  })
}

/** The joint as seen from lens 2: the image is the emitter, and the gap is that behind the lens. */
export function relayJoint(g: RelayGeometry, state: RelayState): GaussianJoint {
  return {
    wavelengthUm: g.wavelengthUm,
    index: g.mediumIndex,
    emitterMfdXUm: 2 * state.imageX.waistRadiusUm,
    emitterMfdYUm: 2 * state.imageY.waistRadiusUm,
    receiverMfdXUm: g.receiverMfdXUm,
    receiverMfdYUm: g.receiverMfdYUm,
    offsetXUm: state.chiefX.heightUm,
    offsetYUm: state.chiefY.heightUm,
    gapUm: state.backGapUm,
    tiltXRad: state.chiefX.slopeRad,
    tiltYRad: state.chiefY.slopeRad,
    rollRad: g.rollRad,
    waistXUm: state.imageX.waistDistanceUm,
    waistYUm: state.imageY.waistDistanceUm,
  }
}

/** The same joint with everything carried to the receiver's face: no gap, offset and tilt about the facet. */
export function atReceiver(joint: GaussianJoint): GaussianJoint {
  return {
    ...joint,
    offsetXUm: joint.offsetXUm + joint.gapUm * joint.tiltXRad,
    offsetYUm: joint.offsetYUm + joint.gapUm * joint.tiltYRad,
    gapUm: 0,
    waistXUm: joint.waistXUm - joint.gapUm,
    waistYUm: joint.waistYUm - joint.gapUm,
  }
}
