// What a relay does to one beam: matrices from end face to end face, beam sizes at the apertures, the chief ray
// through decentred and tilted lenses, and the joint that the image makes with the far guide.

import {
  chainMatrices,
  freeSpace,
  type GaussianJoint,
  type PlacedBeam,
  type Ray,
  type RayMatrix,
  throughDisplaced,
  transformBeam,
} from '../../../optics/index'

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

// The products of chainMatrices written out: this runs thousands of times for one worst-case search.
const then = (m: RayMatrix, next: RayMatrix): RayMatrix => ({
  a: next.a * m.a + next.b * m.c,
  b: next.a * m.b + next.b * m.d,
  c: next.c * m.a + next.d * m.c,
  d: next.c * m.b + next.d * m.d,
})
const thenSpace = (m: RayMatrix, lengthUm: number): RayMatrix => ({
  a: m.a + lengthUm * m.c,
  b: m.b + lengthUm * m.d,
  c: m.c,
  d: m.d,
})

/** The stretch as diffraction sees it: a slab shortens the path. */
export const effectiveStretchUm = (g: RelayGeometry, stretchUm: number): number =>
  Math.max(0, stretchUm - g.deviceLengthUm * (1 - 1 / g.deviceIndex))

/** Matrices up to the planes of the relay, along the path. */
function planesOf(g: RelayGeometry, frontGapUm: number, stretchUm: number) {
  const halfUm = effectiveStretchUm(g, stretchUm) / 2
  const lens1Front = { a: 1, b: frontGapUm, c: 0, d: 1 }
  const lens1Back = then(lens1Front, g.lens1.matrix)
  const middle = thenSpace(lens1Back, halfUm)
  const lens2Front = thenSpace(middle, halfUm)
  const lens2Back = then(lens2Front, g.lens2.matrix)
  return { halfUm, lens1Front, lens1Back, middle, lens2Front, lens2Back }
}

/** Radius of a beam behind a matrix, from the radius and place of its waist before it. */
function radiusAt(m: RayMatrix, mfdUm: number, waistUm: number, wavelengthUm: number, index: number): number {
  const rayleigh = (Math.PI * index * mfdUm * mfdUm) / (4 * wavelengthUm)
  const z = -waistUm
  const across = m.a * z + m.b
  const along = m.a * rayleigh
  return ((mfdUm / 2) * Math.sqrt(across * across + along * along)) / rayleigh
}

/** The chief ray of one plane at the middle of lens 1, the middle of the stretch, the middle of lens 2 and its exit. */
function chiefRay(g: RelayGeometry, axis: 'X' | 'Y', frontGapUm: number, halfUm: number) {
  const offset = axis === 'X' ? g.offsetXUm : g.offsetYUm
  const slope = axis === 'X' ? g.tiltXRad : g.tiltYRad
  const along = (ray: Ray, lengthUm: number): Ray => ({
    heightUm: ray.heightUm + lengthUm * ray.slopeRad,
    slopeRad: ray.slopeRad,
  })
  const through = (lens: RelayLens, ray: Ray) => {
    const own = axis === 'X' ? lens.offsetXUm : lens.offsetYUm
    const tilt = axis === 'X' ? lens.tiltXRad : lens.tiltYRad
    const out = throughDisplaced(lens.matrix, lens.thicknessUm, own, tilt, ray)
    const [before, behind] = [ray.heightUm - own, out.heightUm - own]
    return { out, off: Math.abs(before) > Math.abs(behind) ? before : behind }
  }
  const first = through(g.lens1, along({ heightUm: offset, slopeRad: slope }, frontGapUm))
  const middle = along(first.out, halfUm)
  const second = through(g.lens2, along(middle, halfUm))
  return { lens1: first.off, device: middle.heightUm, lens2: second.off, exit: second.out }
}

/** Distances with the lenses where they are; what would pass contact stops there. */
export function spacings(g: RelayGeometry) {
  const lens2ZUm = Math.min(g.lens2.offsetZUm, Math.max(0, g.backGapUm - g.leastBackUm))
  return {
    frontGapUm: Math.max(0, g.frontGapUm + g.lens1.offsetZUm),
    stretchUm: Math.max(0, g.stretchUm - g.lens1.offsetZUm + lens2ZUm),
    backGapUm: Math.max(0, g.backGapUm - lens2ZUm),
  }
}

/** The whole relay at one set of numbers. */
export function relayState(g: RelayGeometry): RelayState {
  const { frontGapUm, stretchUm, backGapUm } = spacings(g)
  const planes = planesOf(g, frontGapUm, stretchUm)
  const x = chiefRay(g, 'X', frontGapUm, planes.halfUm)
  const y = chiefRay(g, 'Y', frontGapUm, planes.halfUm)
  const radius = (m: RayMatrix, axis: 'X' | 'Y') =>
    axis === 'X'
      ? radiusAt(m, g.emitterMfdXUm, g.waistXUm, g.wavelengthUm, g.mediumIndex)
      : radiusAt(m, g.emitterMfdYUm, g.waistYUm, g.wavelengthUm, g.mediumIndex)
  const larger = (front: RayMatrix, back: RayMatrix, axis: 'X' | 'Y') =>
    Math.max(radius(front, axis), radius(back, axis))
  const beam = (mfdUm: number, waistUm: number): PlacedBeam => ({
    waistRadiusUm: mfdUm / 2,
    waistDistanceUm: waistUm,
    wavelengthUm: g.wavelengthUm,
    index: g.mediumIndex,
  })
  const beamX = beam(g.emitterMfdXUm, g.waistXUm)
  return {
    lens1: {
      radiusXUm: larger(planes.lens1Front, planes.lens1Back, 'X'),
      radiusYUm: larger(planes.lens1Front, planes.lens1Back, 'Y'),
      offXUm: x.lens1,
      offYUm: y.lens1,
    },
    device: {
      radiusXUm: radius(planes.middle, 'X'),
      radiusYUm: radius(planes.middle, 'Y'),
      offXUm: x.device,
      offYUm: y.device,
    },
    lens2: {
      radiusXUm: larger(planes.lens2Front, planes.lens2Back, 'X'),
      radiusYUm: larger(planes.lens2Front, planes.lens2Back, 'Y'),
      offXUm: x.lens2,
      offYUm: y.lens2,
    },
    imageX: transformBeam(planes.lens2Back, beamX),
    imageY: transformBeam(planes.lens2Back, beam(g.emitterMfdYUm, g.waistYUm)),
    chiefX: x.exit,
    chiefY: y.exit,
    frontGapUm,
    stretchUm,
    backGapUm,
  }
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
  return planesOf(g, frontGapUm, stretchUm).lens2Back
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
