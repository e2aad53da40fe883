// What a relay sends back into the guide before it: its two end faces and the faces of its lenses.
// A lens face is a mirror in the path of ray matrices: forward to it, back from it, and the beam that returns against the
// mode that left. Lenses count as centred and upright, which returns the most; clipping weakens nothing here.
// Source: ray matrices as in optics/abcd.ts; a path run backwards has [d b; c a] / determinant.

import {
  chainMatrices,
  freeSpace,
  jointEfficiency,
  type PlacedBeam,
  type RayMatrix,
  requireJoint,
  sphericalInterface,
  transformBeam,
} from '../../../optics/index'
import type { FaceReflection } from '../../results/lightResults'
import { acrossReturn, type MetFace, type MetGap, ownReturn, returnDb } from '../faces/reflections'
import type { Values } from '../vector/readers'
import type { LensReaders } from './lensReaders'
import { relayJoint } from './relayOptics'
import type { RelayAt, RelayReader } from './relayReader'

const backwards = ({ a, b, c, d }: RayMatrix): RayMatrix => {
  const determinant = a * d - b * c
  return { a: d / determinant, b: b / determinant, c: c / determinant, d: a / determinant }
}

const inverse = ({ a, b, c, d }: RayMatrix): RayMatrix => {
  const determinant = a * d - b * c
  return { a: d / determinant, b: -b / determinant, c: -c / determinant, d: a / determinant }
}

/** A mirror; a positive radius spreads the light. */
const mirror = (spreadingRadiusUm: number): RayMatrix => ({ a: 1, b: 0, c: 2 / spreadingRadiusUm, d: 1 })

/** Share of the light that a mirror behind `path` brings back into the mode it came from. */
function overlapAfter(path: RayMatrix, spreadingRadiusUm: number, { numbers }: RelayAt): number {
  const { geometry: g } = numbers
  const trip = chainMatrices([path, mirror(spreadingRadiusUm), backwards(path)])
  const beam = (mfdUm: number, waistDistanceUm: number): PlacedBeam => ({
    waistRadiusUm: mfdUm / 2,
    waistDistanceUm,
    wavelengthUm: g.wavelengthUm,
    index: g.mediumIndex,
  })
  const backX = transformBeam(trip, beam(g.emitterMfdXUm, g.waistXUm))
  const backY = transformBeam(trip, beam(g.emitterMfdYUm, g.waistYUm))
  // Compared in the plane of the mode's own waist, which lies in front of the face by the waist distance.
  return jointEfficiency(
    requireJoint({
      wavelengthUm: g.wavelengthUm,
      index: g.mediumIndex,
      emitterMfdXUm: 2 * backX.waistRadiusUm,
      emitterMfdYUm: 2 * backY.waistRadiusUm,
      receiverMfdXUm: g.emitterMfdXUm,
      receiverMfdYUm: g.emitterMfdYUm,
      offsetXUm: 0,
      offsetYUm: 0,
      gapUm: 0,
      tiltXRad: 0,
      tiltYRad: 0,
      rollRad: 0,
      waistXUm: backX.waistDistanceUm + g.waistXUm,
      waistYUm: backY.waistDistanceUm + g.waistYUm,
    }),
  )
}

interface LensPlaceAt {
  readonly readers: LensReaders
  readonly number: 1 | 2
  /** From the near end face to the lens's first face. */
  readonly before: RayMatrix
  /** Power that is left of light when it gets there and back, 0..1. */
  readonly passed: number
}

/** The two faces of one lens; none for a thin lens, of whose faces nothing is known. */
function lensRows(at: RelayAt, place: LensPlaceAt, v: Values, elementId: string): readonly FaceReflection[] {
  const { readers, number, before, passed } = place
  const reflectance = readers.reflectance(v)
  if (readers.lens.shape.kind === 'thin' || reflectance === 0) return []
  const [first, last] = readers.radiiUm(v)
  const exit = sphericalInterface({
    indexBefore: readers.glassIndex(v),
    indexAfter: at.numbers.mediumIndex,
    radiusUm: -last,
  })
  const inside = chainMatrices([before, readers.matrix(v), inverse(exit)])
  const row = (side: 'first' | 'last', ratio: number): FaceReflection => ({
    elementId,
    face: 'lens',
    label: `Lens ${number}, ${side} face`,
    reflectance,
    intoNearDb: returnDb(ratio),
    intoFarDb: null,
  })
  return [
    row('first', passed * reflectance * overlapAfter(before, first, at)),
    row('last', passed * reflectance * (1 - reflectance) ** 2 * overlapAfter(inside, -last, at)),
  ]
}

/** Every face of the relay; `between` is what light loses from face to face, dB. */
export function relayReflections(
  elementId: string,
  relay: RelayReader,
  plane: 'x' | 'y',
  at: RelayAt,
  between: { readonly wholeDb: number; readonly toLens2Db: number },
  v: Values,
): readonly FaceReflection[] {
  const { numbers, state } = at
  const { geometry, near, far } = numbers
  const joint = relayJoint(geometry, state)
  const inX = plane === 'x'
  const met = (face: 'nearFace' | 'farFace', incidenceRad: number): MetFace => ({
    reflectance: numbers[face].reflectance,
    transmission: numbers[face].transmission,
    faceAngleRad: numbers[face].faceAngleRad,
    incidenceXRad: (inX ? incidenceRad : 0) + joint.tiltXRad,
    incidenceYRad: (inX ? 0 : incidenceRad) + joint.tiltYRad,
  })
  const gap: MetGap = {
    elementId,
    wavelengthUm: geometry.wavelengthUm,
    mediumIndex: numbers.mediumIndex,
    gapUm: joint.gapUm,
    plane,
    near,
    far,
    nearFace: met('nearFace', 0),
    farFace: met('farFace', numbers.farFace.mediumAngleRad),
  }
  const image = {
    index: near.index,
    mfdXUm: joint.emitterMfdXUm,
    mfdYUm: joint.emitterMfdYUm,
    waistXUm: joint.waistXUm,
    waistYUm: joint.waistYUm,
  }
  const isolationDb = relay.device?.isolationDb(v) ?? 0
  const there = 10 ** (-(2 * between.wholeDb + isolationDb) / 10)
  const toLens2 = 10 ** (-(2 * between.toLens2Db + isolationDb) / 10)
  const nearPassed = gap.nearFace.transmission ** 2
  const toFront = freeSpace(state.frontGapUm)
  const toSecond = chainMatrices([toFront, geometry.lens1.matrix, freeSpace(state.stretchUm)])
  const far1 = acrossReturn(gap, image, gap.nearFace, gap.farFace) * there
  const face = (
    name: 'near' | 'far',
    label: string,
    ratio: number,
    intoFar: number | null,
  ): FaceReflection => ({
    elementId,
    face: name,
    label,
    reflectance: name === 'near' ? gap.nearFace.reflectance : gap.farFace.reflectance,
    intoNearDb: returnDb(ratio),
    intoFarDb: intoFar === null ? null : returnDb(intoFar),
  })
  return [
    face('near', 'Near face', ownReturn(gap, near, gap.nearFace), null),
    ...lensRows(at, { readers: relay.lens1, number: 1, before: toFront, passed: nearPassed }, v, elementId),
    ...lensRows(
      at,
      { readers: relay.lens2, number: 2, before: toSecond, passed: nearPassed * toLens2 },
      v,
      elementId,
    ),
    face('far', 'Far face', far1, ownReturn(gap, far, gap.farFace)),
  ]
}
