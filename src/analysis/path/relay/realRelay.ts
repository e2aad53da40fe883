// A relay in line through its lenses as they are: fans of rays in one plane traced from both guides into the parallel beam, and coupled
// there. What the joint loses beyond the paraxial relay is the aberration. Displaced and tilted lenses: field/fit/relayDifference.ts.
// Round modes replace elliptical ones: the geometric mean of their diameters.

import {
  collimatedField,
  coupledBy,
  coupledGaussians,
  type LensShape,
  type LensSide,
  paraxialField,
  type RayMatrix,
  type RingField,
  type RingSpectrum,
  ringSpectrum,
  waveNodes,
  wavesOver,
} from '../../../optics/index'
import type { RelayGeometry } from './relayGeometry'

/** The fields of both sides in the parallel beam, in line. */
export type RelayLight = readonly [near: RingField, far: RingField]

/** Both lenses; null for one that is known by its matrix only. */
type LensShapes = readonly [LensShape | null, LensShape | null]

/** Waves of the parallel beam are summed up to so many over its radius. */
const SPREAD = 12
/** A loss beyond any usable design; keeps differences finite where no light couples. */
const MOST_DB = 60

const geometricMean = (a: number, b: number) => Math.sqrt(a * b)

/** Length of the parallel beam as diffraction sees it: a slab shortens it. */
export const opticalStretchUm = (g: RelayGeometry) =>
  Math.max(0, g.stretchUm - g.deviceLengthUm * (1 - 1 / g.deviceIndex))

/** Modes, lenses and distances of both sides, in line; `frontUm` and `backUm` are the distances of the end faces. */
export function sidesOf(
  g: RelayGeometry,
  shapes: LensShapes,
  frontUm: number,
  backUm: number,
): readonly [LensSide, LensSide] {
  const side = (
    mfdX: number,
    mfdY: number,
    distanceUm: number,
    lens: LensShape | null,
    matrix: RayMatrix,
    thicknessUm: number,
  ): LensSide => ({
    mode: {
      wavelengthUm: g.wavelengthUm,
      waistRadiusUm: geometricMean(mfdX, mfdY) / 2,
      distanceUm,
    },
    lens,
    matrix,
    thicknessUm,
    mediumIndex: g.mediumIndex,
  })
  // Backwards through lens 2, whose determinant is 1: the same medium on both sides.
  const { a, b, c, d } = g.lens2.matrix
  const waistUm = (g.waistXUm + g.waistYUm) / 2
  return [
    side(g.emitterMfdXUm, g.emitterMfdYUm, frontUm - waistUm, shapes[0], g.lens1.matrix, g.lens1.thicknessUm),
    side(g.receiverMfdXUm, g.receiverMfdYUm, backUm, shapes[1], { a: d, b, c, d: a }, g.lens2.thicknessUm),
  ]
}

const KEPT = 600
const fields = new Map<string, RingField | null>()
const spectra = new WeakMap<RingField, { readonly radiusUm: number; readonly spectrum: RingSpectrum }>()

/** The field of a side in the parallel beam; the last ones are remembered. */
function fieldOf(side: LensSide): RingField | null {
  const key = JSON.stringify(side)
  const found = fields.get(key)
  if (found !== undefined) return found
  const { mode, lens, matrix, mediumIndex } = side
  const made = lens === null ? paraxialField(mode, matrix, mediumIndex) : collimatedField(mode, lens, matrix)
  if (fields.size >= KEPT) fields.clear()
  fields.set(key, made)
  return made
}

/** Conical waves of the parallel beam, for beams of this radius or more, and with the stretch between the lenses. */
export interface RelayWaves {
  readonly radiusUm: number
  readonly q: Float64Array
  readonly over: RingSpectrum
  readonly stretchUm: number
  readonly kPerUm: number
}

/** The waves of a relay, for any distances of its end faces. */
export function relayWaves(g: RelayGeometry, radiusUm: number): RelayWaves {
  const waves = waveNodes(radiusUm, SPREAD)
  const stretchUm = opticalStretchUm(g)
  const kPerUm = (2 * Math.PI * g.mediumIndex) / g.wavelengthUm
  return { radiusUm, q: waves.q, over: wavesOver(waves, stretchUm, kPerUm), stretchUm, kPerUm }
}

function spectrumOf(field: RingField, { radiusUm, q }: RelayWaves): RingSpectrum {
  const known = spectra.get(field)
  if (known?.radiusUm === radiusUm) return known.spectrum
  const spectrum = ringSpectrum(field, q)
  spectra.set(field, { radiusUm, spectrum })
  return spectrum
}

/** At the given distances of the end faces from their lenses; null where no ray gets through. */
export function relayLight(
  g: RelayGeometry,
  shapes: LensShapes,
  frontUm: number,
  backUm: number,
): RelayLight | null {
  const [near, far] = sidesOf(g, shapes, frontUm, backUm)
  const [first, second] = [fieldOf(near), fieldOf(far)]
  return first === null || second === null ? null : [first, second]
}

/** Real less paraxial loss, dB. */
function differenceOf(first: RingField, second: RingField, waves: RelayWaves): number {
  const { over, stretchUm, kPerUm } = waves
  const real = coupledBy(spectrumOf(first, waves), spectrumOf(second, waves), over)
  const paraxial = coupledGaussians(first, second, stretchUm, kPerUm)
  return Math.min(MOST_DB, -10 * Math.log10(real)) - Math.min(MOST_DB, -10 * Math.log10(paraxial))
}

/**
 * Real less paraxial loss by the distances of the end faces on one list of waves, dB; 0 where no ray gets through. The field of a side
 * is found once for each distance.
 */
export function differenceAlong(
  g: RelayGeometry,
  shapes: LensShapes,
  waves: RelayWaves,
): (frontUm: number, backUm: number) => number {
  const known = [new Map<number, RingField | null>(), new Map<number, RingField | null>()] as const
  const field = (of: 0 | 1, distanceUm: number): RingField | null => {
    const found = known[of].get(distanceUm)
    if (found !== undefined) return found
    const made = fieldOf(sidesOf(g, shapes, distanceUm, distanceUm)[of])
    if (known[of].size >= KEPT) known[of].clear()
    known[of].set(distanceUm, made)
    return made
  }
  return (frontUm, backUm) => {
    const first = field(0, frontUm)
    const second = field(1, backUm)
    return first === null || second === null ? 0 : differenceOf(first, second, waves)
  }
}

/** The aberration of a geometry by the distances of its end faces, dB; 0 where no ray gets through. */
export type AlongDb = (g: RelayGeometry, frontUm: number, backUm: number) => number

/** By its rays at once. */
export function exactAlong(shapes: LensShapes): AlongDb {
  return (g, frontUm, backUm) => {
    const light = relayLight(g, shapes, frontUm, backUm)
    if (light === null) return 0
    const [near, far] = light
    return differenceOf(near, far, relayWaves(g, Math.min(near.beamRadiusUm, far.beamRadiusUm)))
  }
}
