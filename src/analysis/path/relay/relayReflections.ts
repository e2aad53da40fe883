// Back-reflection of a relay into the guides on both sides: its two end faces and the faces of its lenses.
// A lens face is a mirror in the path of ray matrices, see ../faces/curvedMirror. Lenses are treated as centred and upright, which
// returns the most; clipping weakens nothing here.

import { chainMatrices, freeSpace, type RayMatrix, sphericalInterface } from '../../../optics/index'
import type { Port } from '../../results/evaluation'
import type { FaceReflection } from '../../results/lightResults'
import { backwards, curvedMirrorOverlap, type LeavingMode } from '../faces/curvedMirror'
import { acrossReturn, type MetFace, type MetGap, ownReturn, returnDb } from '../faces/reflections'
import type { Values } from '../vector/valueReaders'
import type { LensReaders } from './lensReaders'
import type { RelayGeometry } from './relayGeometry'
import { type RelayState, relayJoint, relayMatrix, relayState, reversedRelay } from './relayOptics'
import type { RelayAt, RelayReader } from './relayReader'

const inverse = ({ a, b, c, d }: RayMatrix): RayMatrix => {
  const determinant = a * d - b * c
  return { a: d / determinant, b: -b / determinant, c: -c / determinant, d: a / determinant }
}

/** Losses between the faces of a relay, dB: all that is between the end faces, and what is before either lens. */
interface RelayLosses {
  readonly wholeDb: number
  /** From the near end face to lens 2, and from the far end face to lens 1. */
  readonly toLens2Db: number
  readonly toLens1Db: number
}

/** A relay as one of its guides looks into it. */
interface Look {
  readonly geometry: RelayGeometry
  readonly state: RelayState
  readonly own: Port
  readonly ownFace: MetFace
  readonly acrossFace: MetFace
  /** The lenses in the order in which they are met. */
  readonly lenses: readonly [first: LensReaders, second: LensReaders]
  /** Whether the light meets the last face of a lens first. */
  readonly reversed: boolean
  /** Power that is left of light on its way to the second lens and to the face across, and back; 0..1. */
  readonly toSecond: number
  readonly toAcross: number
}

const lossesThereAndBack = (lossDb: number, isolationDb: number) => 10 ** (-(2 * lossDb + isolationDb) / 10)

/** Power ratios that come back into the own mode, by the label of the face. */
function returnsOf(look: Look, gap: MetGap, v: Values): ReadonlyMap<string, number> {
  const { geometry: g, state, own, ownFace, acrossFace } = look
  const mode: LeavingMode = {
    wavelengthUm: g.wavelengthUm,
    index: g.mediumIndex,
    mfdXUm: g.emitterMfdXUm,
    mfdYUm: g.emitterMfdYUm,
    waistXUm: g.waistXUm,
    waistYUm: g.waistYUm,
  }
  const through = ownFace.transmission ** 2
  const toFirst = freeSpace(state.frontGapUm)
  const toSecond = chainMatrices([toFirst, g.lens1.matrix, freeSpace(state.stretchUm)])
  const befores = [
    [look.lenses[0], g.lens1.matrix, toFirst, through],
    [look.lenses[1], g.lens2.matrix, toSecond, through * look.toSecond],
  ] as const
  const rows = new Map<string, number>()
  for (const [order, [readers, matrix, before, passed]] of befores.entries()) {
    const reflectance = readers.reflectance(v)
    if (readers.lens.shape.kind === 'thin' || reflectance === 0) continue
    const radii = readers.radiiUm(v)
    const [entered, left] = look.reversed ? [radii[1], radii[0]] : radii
    const exit = sphericalInterface({
      indexBefore: readers.glassIndex(v),
      indexAfter: g.mediumIndex,
      radiusUm: -left,
    })
    const inside = chainMatrices([before, matrix, inverse(exit)])
    const number = look.reversed ? 2 - order : order + 1
    const [entry, last] = look.reversed ? (['last', 'first'] as const) : (['first', 'last'] as const)
    rows.set(
      `Lens ${number}, ${entry} face`,
      passed * reflectance * curvedMirrorOverlap(before, entered, mode),
    )
    rows.set(
      `Lens ${number}, ${last} face`,
      passed * reflectance * (1 - reflectance) ** 2 * curvedMirrorOverlap(inside, -left, mode),
    )
  }
  const joint = relayJoint(g, state)
  const image: Port = {
    index: own.index,
    mfdXUm: joint.emitterMfdXUm,
    mfdYUm: joint.emitterMfdYUm,
    waistXUm: joint.waistXUm,
    waistYUm: joint.waistYUm,
  }
  const [ownLabel, acrossLabel] = look.reversed
    ? ['Chip-side face', 'Fibre-side face']
    : ['Fibre-side face', 'Chip-side face']
  rows.set(ownLabel, ownReturn(gap, own, ownFace))
  rows.set(
    acrossLabel,
    acrossReturn({ ...gap, gapUm: joint.gapUm }, image, ownFace, acrossFace) * look.toAcross,
  )
  return rows
}

/** Tilts of the far guide's axis as the near guide sees it through the lenses: the chief ray's miss, mapped back. */
function tiltsAtNear(g: RelayGeometry, state: RelayState): readonly [xRad: number, yRad: number] {
  const joint = relayJoint(g, state)
  const back = inverse(chainMatrices([relayMatrix(g, state), freeSpace(joint.gapUm)]))
  const slope = (offsetUm: number, tiltRad: number) =>
    -(back.c * (offsetUm + joint.gapUm * tiltRad) + back.d * tiltRad)
  return [slope(joint.offsetXUm, joint.tiltXRad), slope(joint.offsetYUm, joint.tiltYRad)]
}

/** Every face of the relay, in the order from fibre to chip. */
export function relayReflections(
  elementId: string,
  relay: RelayReader,
  plane: 'x' | 'y',
  { numbers, state }: RelayAt,
  between: RelayLosses,
  v: Values,
): readonly FaceReflection[] {
  const { geometry, near, far, nearFace, farFace } = numbers
  const joint = relayJoint(geometry, state)
  const inX = plane === 'x'
  const met = (face: typeof nearFace, [tiltXRad, tiltYRad]: readonly [number, number]): MetFace => ({
    reflectance: face.reflectance,
    transmission: face.transmission,
    faceAngleRad: face.faceAngleRad,
    incidenceXRad: (inX ? face.mediumAngleRad : 0) + tiltXRad,
    incidenceYRad: (inX ? 0 : face.mediumAngleRad) + tiltYRad,
  })
  const faces = {
    near: met(nearFace, tiltsAtNear(geometry, state)),
    far: met(farFace, [joint.tiltXRad, joint.tiltYRad]),
  }
  const gap: MetGap = {
    elementId,
    wavelengthUm: geometry.wavelengthUm,
    mediumIndex: numbers.mediumIndex,
    gapUm: joint.gapUm,
    plane,
    near,
    far,
    nearFace: faces.near,
    farFace: faces.far,
  }
  const isolationDb = relay.device?.isolationDb(v) ?? 0
  const toAcross = lossesThereAndBack(between.wholeDb, isolationDb)
  const intoNear = returnsOf(
    {
      geometry,
      state,
      own: near,
      ownFace: faces.near,
      acrossFace: faces.far,
      lenses: [relay.lens1, relay.lens2],
      reversed: false,
      toSecond: lossesThereAndBack(between.toLens2Db, isolationDb),
      toAcross,
    },
    gap,
    v,
  )
  const turned = reversedRelay(geometry, state, backwards)
  const intoFar = returnsOf(
    {
      geometry: turned,
      state: relayState(turned),
      own: far,
      ownFace: faces.far,
      acrossFace: faces.near,
      lenses: [relay.lens2, relay.lens1],
      reversed: true,
      toSecond: lossesThereAndBack(between.toLens1Db, isolationDb),
      toAcross,
    },
    gap,
    v,
  )
  const labels = [
    'Fibre-side face',
    ...[...intoNear.keys()].filter((label) => label.startsWith('Lens')),
    'Chip-side face',
  ]
  const reflectanceOf = (label: string) => {
    if (label === 'Fibre-side face') return nearFace.reflectance
    if (label === 'Chip-side face') return farFace.reflectance
    return (label.startsWith('Lens 1') ? relay.lens1 : relay.lens2).reflectance(v)
  }
  return labels.map((label) => ({
    elementId,
    face: label === 'Fibre-side face' ? 'near' : label === 'Chip-side face' ? 'far' : 'lens',
    label,
    reflectance: reflectanceOf(label),
    intoNearDb: returnDb(intoNear.get(label) ?? 0),
    intoFarDb: returnDb(intoFar.get(label) ?? 0),
  }))
}
