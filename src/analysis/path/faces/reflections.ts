// What the faces of a join send back into the modes of the guides on either side.

import {
  freeSpace,
  mirrorOverlap,
  tipReturnOverlap,
  turnedModeDb,
  turnedReturnDb,
} from '../../../optics/index'
import type { Port, TipFace } from '../../results/evaluation'
import type { FaceReflection } from '../../results/lightResults'
import { curvedMirrorOverlap } from './curvedMirror'

/** One end face as the light of a join meets it. */
export interface MetFace {
  readonly reflectance: number
  readonly transmission: number
  /** Slope of the face's normal against the axis of its own guide, rad. */
  readonly faceAngleRad: number
  /** Angle between the face's normal and the beam of the other guide, per axis; rad. */
  readonly incidenceXRad: number
  readonly incidenceYRad: number
}

export interface MetGap {
  readonly elementId: string
  readonly wavelengthUm: number
  readonly mediumIndex: number
  readonly gapUm: number
  readonly plane: 'x' | 'y'
  readonly near: Port
  readonly far: Port
  readonly nearFace: MetFace
  readonly farFace: MetFace
}

/** A power ratio as positive dB; null where nothing comes back. */
export function returnDb(ratio: number): number | null {
  return ratio > 0 ? 0 - 10 * Math.log10(ratio) : null
}

/** What an angle of its end face adds to a guide's return loss, dB: by the mode of its core, else by its Gaussian. */
export function angledReturnDb(
  port: Port,
  wavelengthUm: number,
  angleXRad: number,
  angleYRad: number,
): number {
  const { tip, core, index } = port
  const face = { wavelengthUm, guideIndex: index, angleXRad, angleYRad }
  if (core !== undefined) return turnedModeDb({ ...face, core })
  return turnedReturnDb({
    ...face,
    mfdXUm: tip === undefined ? port.mfdXUm : tip.modeMfdXUm,
    mfdYUm: tip === undefined ? port.mfdYUm : tip.modeMfdYUm,
  })
}

/** The own face of a guide, as its own mode sees it. */
export function ownReturn(gap: MetGap, port: Port, face: MetFace): number {
  const { tip } = port
  const leaning = angledReturnDb(
    port,
    gap.wavelengthUm,
    gap.plane === 'x' ? face.faceAngleRad : 0,
    gap.plane === 'y' ? face.faceAngleRad : 0,
  )
  const curved = tip?.radiusUm == null ? 1 : tipReturn(tip, tip.radiusUm, port.index, gap.wavelengthUm)
  return face.reflectance * curved * 10 ** (-leaning / 10)
}

/** Share of its reflection that a curved tip couples back into the mode. */
function tipReturn(tip: TipFace, tipRadiusUm: number, fibreIndex: number, wavelengthUm: number): number {
  const along = (modeMfdUm: number) =>
    tipReturnOverlap({ modeRadiusUm: modeMfdUm / 2, tipRadiusUm, fibreIndex, wavelengthUm })
  return Math.sqrt(along(tip.modeMfdXUm) * along(tip.modeMfdYUm))
}

/** The face across the gap, seen through the own one: two passes of it. */
export function acrossReturn(gap: MetGap, port: Port, own: MetFace, across: MetFace): number {
  const overlap = mirrorOverlap({
    wavelengthUm: gap.wavelengthUm,
    mediumIndex: gap.mediumIndex,
    mfdXUm: port.mfdXUm,
    mfdYUm: port.mfdYUm,
    gapUm: gap.gapUm,
    incidenceXRad: across.incidenceXRad,
    incidenceYRad: across.incidenceYRad,
    waistXUm: port.waistXUm,
    waistYUm: port.waistYUm,
  })
  return across.reflectance * own.transmission ** 2 * overlap
}

/** A curved tip as the guide across the gap sees it: a mirror that spreads, on the axis; flat where its radius is not known. */
function tipAcross(gap: MetGap, tip: TipFace): number {
  const { far, farFace, nearFace } = gap
  if (tip.radiusUm === null) return acrossReturn(gap, far, farFace, nearFace)
  const mode = {
    wavelengthUm: gap.wavelengthUm,
    index: gap.mediumIndex,
    mfdXUm: far.mfdXUm,
    mfdYUm: far.mfdYUm,
    waistXUm: 0,
    waistYUm: 0,
  }
  const overlap = curvedMirrorOverlap(freeSpace(gap.gapUm), tip.radiusUm, mode)
  return nearFace.reflectance * farFace.transmission ** 2 * overlap
}

const UNKNOWN_TIP =
  'tip radius not given: treated as flat, the worst case; the true return loss is at least this'

/** Both faces of a gap. A face that reflects nothing is listed with null. */
export function gapReflections(gap: MetGap): readonly FaceReflection[] {
  const { near, far, nearFace, farFace, elementId } = gap
  const { tip } = near
  return [
    {
      elementId,
      face: 'near',
      label: 'Fibre-side face',
      reflectance: nearFace.reflectance,
      intoNearDb: returnDb(ownReturn(gap, near, nearFace)),
      intoFarDb: returnDb(
        tip === undefined ? acrossReturn(gap, far, farFace, nearFace) : tipAcross(gap, tip),
      ),
      ...(tip !== undefined && tip.radiusUm === null && { atMost: true, note: UNKNOWN_TIP }),
    },
    {
      elementId,
      face: 'far',
      label: 'Chip-side face',
      reflectance: farFace.reflectance,
      intoNearDb: returnDb(acrossReturn(gap, near, nearFace, farFace)),
      intoFarDb: returnDb(ownReturn(gap, far, farFace)),
    },
  ]
}
