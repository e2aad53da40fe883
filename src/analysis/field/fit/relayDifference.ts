// Real less Gaussian loss of a relay as a function of how the image meets the far guide, how each guide lies against its own lens, and both
// end distances. Lenses, sizes and wavelength are those of the nominal relay. Skew rays through both lenses, traced anew for every pose:
// nothing is expanded in the displacements. Round modes.

import {
  chainMatrices,
  coupledSkew,
  fillSkewField,
  freeSpace,
  jointLossDb,
  type LensSide,
  lossDb,
  newSkewField,
  type Pupil,
  ringPupil,
  type SkewField,
  transformBeam,
} from '../../../optics/index'
import { remembering } from '../remembering'
import type { Difference, ExactDifference } from './exactDifference'
import { dataText } from './questionText'
import { RELAY_AXES, type RelaySides } from './relayAxes'

/** Rings, rays on each of them and their reach, 1/e^2 radii: the more a lens aberrates, the further out and the closer they must lie. */
type Rings = readonly [rings: number, azimuths: number, reach: number]
interface Pupils {
  /** From coarse to fine. */
  readonly rungs: readonly Rings[]
  /** For a relay that is too dark to be judged. */
  readonly dark: Rings
}
/** For any pose. */
const WIDE: Pupils = {
  rungs: [
    [14, 14, 2.3],
    [20, 14, 2.6],
    [30, 16, 3],
  ],
  dark: [14, 14, 2.3],
}
/** For poses near those that are looked at. */
const CLOSE: Pupils = {
  rungs: [
    [12, 10, 2.3],
    [15, 10, 2.35],
    [20, 10, 2.6],
    [30, 16, 3],
  ],
  dark: [15, 10, 2.35],
}
const FINEST: Rings = [45, 20, 3]
/** The first pupil is used whose changes from pose to pose are those of the finest one to this, dB and as a share of them. */
const COARSE_DB = 0.002
const COARSE_SHARE = 0.005
/** No relay that loses more in the first pose is judged by such changes, dB. */
const JUDGED_DB = 12
/** Poses for any: displacements of both guides in radii of their modes, and slopes in divergence angles. */
const LOOKS = [
  [0, 0],
  [0.6, 0],
  [0, 0.6],
  [-0.4, 0.4],
] as const
const DARKEST_DB = 60

/**
 * The chief ray of one plane at the first vertex of the lens, and the tilt of the lens, turned so that the beam leaves along the axis: place and
 * slope of the guide are against the lens, and distances are measured along the beam.
 */
function inBeam({ matrix, thicknessUm }: LensSide, distanceUm: number, placeUm: number, slopeRad: number) {
  const heightUm = placeUm + distanceUm * slopeRad
  const leaving = matrix.c * heightUm + matrix.d * slopeRad
  return {
    chief: { heightUm: heightUm + (leaving * thicknessUm) / 2, slopeRad: slopeRad - leaving },
    tiltRad: -leaving,
  }
}

/** A pose in which both guides are off the axes of their lenses, and the image on that of the far one. */
function lookAt(
  { near, far, nearWaistUm }: RelaySides,
  [offset, tilt]: (typeof LOOKS)[number],
): Float64Array {
  const at = new Float64Array(RELAY_AXES.length)
  for (const [{ mode, mediumIndex }, axis] of [
    [near, 4],
    [far, 8],
  ] as const) {
    at[axis] = offset * mode.waistRadiusUm
    at[axis + 2] = (tilt * mode.wavelengthUm) / (Math.PI * mediumIndex * mode.waistRadiusUm)
  }
  at[12] = near.mode.distanceUm + nearWaistUm
  at[13] = far.mode.distanceUm
  return at
}

const known = remembering<ExactDifference>(8)

/** The evaluator, at coordinates of RELAY_AXES; the difference is 0 where no ray gets through. The last ones are remembered. */
export const relayDifference = (sides: RelaySides): ExactDifference =>
  known(dataText(sides), () =>
    coarsestOf(
      sides,
      WIDE,
      LOOKS.map((look) => lookAt(sides, look)),
    ),
  )

/** The same near these poses, with as many rays as its changes from the first of them to the others need. */
export const differenceNear = (sides: RelaySides, poses: readonly Float64Array[]): ExactDifference =>
  coarsestOf(sides, CLOSE, poses)

function coarsestOf(
  sides: RelaySides,
  { rungs, dark }: Pupils,
  poses: readonly Float64Array[],
): ExactDifference {
  const [inLine = new Float64Array(RELAY_AXES.length), ...looks] = poses
  const finest = differenceOn(sides, ringPupil(...FINEST))
  const nominal = finest(inLine)
  const changes = (of: ExactDifference, fromDb: number) => looks.map((at) => of(at).differenceDb - fromDb)
  if (nominal.fieldDb > JUDGED_DB) return differenceOn(sides, ringPupil(...dark))
  const wanted = changes(finest, nominal.differenceDb)
  for (const pupil of rungs) {
    const of = differenceOn(sides, ringPupil(...pupil))
    const found = changes(of, of(inLine).differenceDb)
    const isClose = wanted.every(
      (value, i) => Math.abs((found[i] as number) - value) < COARSE_DB + COARSE_SHARE * Math.abs(value),
    )
    if (isClose) return of
  }
  return finest
}

/** By the rays of one pupil. */
export function differenceOn(sides: RelaySides, pupil: Pupil): ExactDifference {
  const { near, far, nearWaistUm, stretchUm } = sides
  const { wavelengthUm } = near.mode
  const index = near.mediumIndex
  const k0 = (2 * Math.PI) / wavelengthUm
  const [first, second] = [newSkewField(pupil), newSkewField(pupil)]
  const fill = (
    field: SkewField,
    side: LensSide,
    distanceUm: number,
    waistUm: number,
    at: ArrayLike<number>,
    axis: number,
  ): boolean => {
    const x = inBeam(side, distanceUm, at[axis] as number, at[axis + 2] as number)
    const y = inBeam(side, distanceUm, at[axis + 1] as number, at[axis + 3] as number)
    const { lens: shape, matrix, thicknessUm, mediumIndex } = side
    const placed = {
      ...{ shape, matrix, thicknessUm, mediumIndex },
      ...{ offsetXUm: 0, offsetYUm: 0, tiltXRad: x.tiltRad, tiltYRad: y.tiltRad },
    }
    const mode = { wavelengthUm, waistRadiusUm: side.mode.waistRadiusUm, distanceUm: distanceUm - waistUm }
    return fillSkewField(mode, { x: x.chief, y: y.chief }, placed, pupil, field)
  }
  return (at): Difference => {
    const ox = at[0] as number
    const oy = at[1] as number
    const tx = at[2] as number
    const ty = at[3] as number
    const frontUm = Math.max(0, at[12] as number)
    const backUm = Math.max(0, at[13] as number)
    // From the plane behind lens 1 to the far face: lens 2 in the direction of the light is its matrix run backwards, of equal media.
    const { a, b, c, d } = far.matrix
    const on = chainMatrices([freeSpace(stretchUm), { a: d, b, c, d: a }, freeSpace(backUm)])
    const image = transformBeam(chainMatrices([freeSpace(frontUm), near.matrix, on]), {
      waistRadiusUm: near.mode.waistRadiusUm,
      waistDistanceUm: nearWaistUm,
      wavelengthUm,
      index,
    })
    const gaussianDb = jointLossDb({
      wavelengthUm,
      index,
      emitterMfdXUm: 2 * image.waistRadiusUm,
      emitterMfdYUm: 2 * image.waistRadiusUm,
      receiverMfdXUm: 2 * far.mode.waistRadiusUm,
      receiverMfdYUm: 2 * far.mode.waistRadiusUm,
      offsetXUm: ox,
      offsetYUm: oy,
      gapUm: 0,
      tiltXRad: tx,
      tiltYRad: ty,
      rollRad: 0,
      waistXUm: image.waistDistanceUm,
      waistYUm: image.waistDistanceUm,
    })
    if (!fill(first, near, frontUm, nearWaistUm, at, 4) || !fill(second, far, backUm, 0, at, 8))
      return { differenceDb: 0, fieldDb: gaussianDb }
    // Back to the parallel beam: the matrix has determinant 1.
    const coupled = coupledSkew(first, second, stretchUm, k0, index, {
      shiftXUm: on.d * ox - on.b * tx,
      shiftYUm: on.d * oy - on.b * ty,
      tiltXRad: on.a * tx - on.c * ox,
      tiltYRad: on.a * ty - on.c * oy,
    })
    const fieldDb = Math.min(DARKEST_DB, lossDb(Math.max(coupled, Number.MIN_VALUE)))
    return { differenceDb: fieldDb - Math.min(DARKEST_DB + 30, gaussianDb), fieldDb }
  }
}
