// Real less Gaussian loss of a relay as a function of how the image meets the far guide, how far both guides are off the axes
// of their own lenses, and both end distances. Lenses, sizes and wavelength are those of the nominal relay.
// Fields in line come from fans of rays; a movement shifts and tilts one against the other, and what guides off their lenses'
// axes add is coma to first order. Round modes.

import {
  type Coma,
  chainMatrices,
  collimatedField,
  comaOf,
  coupledPoints,
  type FieldLookup,
  freeSpace,
  jointLossDb,
  type LensMode,
  type LensSide,
  lossDb,
  type PointField,
  paraxialField,
  pointsOfRings,
  type RayMatrix,
  ringSpectrum,
  roundLookup,
  transformBeam,
  waveNodes,
} from '../../../optics/index'
import type { Difference, ExactDifference } from './exactDifference'
import type { RelaySides } from './relayAxes'

const AZIMUTHS = 18
const SPREAD = 12
const DARKEST_DB = 60

/** From the plane behind lens 1 to the far face. */
function toFarFace({ far, stretchUm }: RelaySides, backUm: number): RayMatrix {
  const { a, b, c, d } = far.matrix
  // Lens 2 in the direction of the light: its matrix run backwards, of equal media on both sides.
  return chainMatrices([freeSpace(stretchUm), { a: d, b, c, d: a }, freeSpace(Math.max(0, backUm))])
}

const at = (side: LensSide, distanceUm: number): LensMode => ({ ...side.mode, distanceUm })

function fieldOf(side: LensSide, distanceUm: number) {
  return side.lens === null
    ? paraxialField(at(side, distanceUm), side.matrix, side.mediumIndex)
    : collimatedField(at(side, distanceUm), side.lens, side.matrix)
}

interface FarField {
  readonly lookup: FieldLookup
  readonly radiusUm: number
}

/** The evaluator; fields are kept while their distance stays. */
export function relayDifference(sides: RelaySides): ExactDifference {
  const { near, far, nearWaistUm, stretchUm } = sides
  const { wavelengthUm } = near.mode
  const index = near.mediumIndex
  const k0 = (2 * Math.PI) / wavelengthUm
  const kPerUm = k0 * index
  const comas: readonly [Coma, Coma] = [comaOf(near), comaOf(far)]
  let [frontKept, backKept] = [Number.NaN, Number.NaN]
  let first: PointField | null = null
  let second: FarField | null = null
  const firstAt = (frontUm: number) => {
    if (frontUm !== frontKept) {
      const field = fieldOf(near, frontUm - nearWaistUm)
      first = field === null ? null : pointsOfRings(field, AZIMUTHS)
      frontKept = frontUm
    }
    return first
  }
  const secondAt = (backUm: number) => {
    if (backUm !== backKept) {
      const field = fieldOf(far, backUm)
      const waves = field === null ? null : waveNodes(field.beamRadiusUm, SPREAD)
      second =
        field === null || waves === null
          ? null
          : {
              lookup: roundLookup(ringSpectrum(field, waves.q), waves, field.beamRadiusUm, stretchUm, kPerUm),
              radiusUm: field.beamRadiusUm,
            }
      backKept = backUm
    }
    return second
  }
  let phaseRad = new Float64Array(0)
  return (point): Difference => {
    const [ox = 0, oy = 0, tx = 0, ty = 0, nx = 0, ny = 0, fx = 0, fy = 0, front = 0, back = 0] =
      Array.from(point)
    const frontUm = Math.max(0, front)
    const backUm = Math.max(0, back)
    const m = toFarFace(sides, backUm)
    const image = transformBeam(chainMatrices([freeSpace(frontUm), near.matrix, m]), {
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
    const points = firstAt(frontUm)
    const other = secondAt(backUm)
    if (points === null || other === null) return { differenceDb: 0, fieldDb: gaussianDb }
    // Back to the parallel beam: the matrix has determinant 1.
    const move = {
      shiftXUm: m.d * ox - m.b * tx,
      shiftYUm: m.d * oy - m.b * ty,
      tiltXRad: m.a * tx - m.c * ox,
      tiltYRad: m.a * ty - m.c * oy,
    }
    if (phaseRad.length !== points.xUm.length) phaseRad = new Float64Array(points.xUm.length)
    const [one, two] = comas
    const w1 = points.beamRadiusUm
    const w2 = other.radiusUm
    for (let j = 0; j < phaseRad.length; j++) {
      const x = points.xUm[j] as number
      const y = points.yUm[j] as number
      const u1 = x / w1
      const v1 = y / w1
      const u2 = (x + move.shiftXUm) / w2
      const v2 = (y + move.shiftYUm) / w2
      const s1 = u1 * u1 + v1 * v1
      const s2 = u2 * u2 + v2 * v2
      const path =
        (nx * u1 + ny * v1) * (one.p[0] + s1 * (one.p[1] + s1 * one.p[2])) +
        (fx * u2 + fy * v2) * (two.p[0] + s2 * (two.p[1] + s2 * two.p[2]))
      phaseRad[j] = (points.phaseRad[j] as number) - k0 * path
    }
    const coupled = coupledPoints({ ...points, phaseRad }, other.lookup, kPerUm, move)
    const fieldDb = Math.min(DARKEST_DB, lossDb(Math.max(coupled, Number.MIN_VALUE)))
    return { differenceDb: fieldDb - Math.min(DARKEST_DB + 30, gaussianDb), fieldDb }
  }
}
