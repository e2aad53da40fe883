// A relay through its lenses as they are: rays traced from both guides into the parallel beam, and coupled there.
// What that loses beyond the paraxial relay is the aberration. It is a function of how far both end faces stand from the paraxial
// foci of their lenses, so that index, wavelength and temperature carry it along; near the nominal distances it is a polynomial
// through a few exact values, elsewhere it is computed. Round modes stand for elliptical ones: the geometric mean of their
// diameters. Lenses count as in line: decentre and tilt leave the aberration as it is.

import {
  collimatedField,
  coupledOver,
  jointLossDb,
  type LensMode,
  type LensShape,
  paraxialField,
  type RayMatrix,
  type RingField,
  type RingSpectrum,
  ringSpectrum,
  type WavefrontQuality,
  wavefrontQuality,
  waveNodes,
} from '../../../optics/index'
import type { Values } from '../vector/readers'
import type { LensReaders } from './lensReaders'
import { atReceiver, type RelayGeometry, relayJoint, relayState } from './relayOptics'

/** One guide with its lens, seen from the guide. */
interface Side {
  readonly mode: LensMode
  readonly lens: LensShape | null
  readonly matrix: RayMatrix
  readonly mediumIndex: number
}

/** The loss of the joint, in line, through the real lenses and by paraxial optics, dB; null where no ray gets through. */
export interface RealRelay {
  readonly realDb: number
  readonly paraxialDb: number
  readonly sides: readonly [RingField, RingField]
}

/** Waves of the parallel beam are summed up to so many over its radius. */
const SPREAD = 12
/** A loss that nobody would build; keeps differences finite where no light couples. */
const MOST_DB = 60

const geometricMean = (a: number, b: number) => Math.sqrt(a * b)

/** Modes, lenses and distances of both sides, in line; `frontUm` and `backUm` are the distances of the end faces. */
function sidesOf(
  g: RelayGeometry,
  shapes: readonly [LensShape | null, LensShape | null],
  frontUm: number,
  backUm: number,
): readonly [Side, Side] {
  const side = (
    mfdX: number,
    mfdY: number,
    distanceUm: number,
    lens: LensShape | null,
    matrix: RayMatrix,
  ): Side => ({
    mode: {
      wavelengthUm: g.wavelengthUm,
      waistRadiusUm: geometricMean(mfdX, mfdY) / 2,
      distanceUm,
    },
    lens,
    matrix,
    mediumIndex: g.mediumIndex,
  })
  // Backwards through lens 2, whose determinant is 1: the same medium on both sides.
  const { a, b, c, d } = g.lens2.matrix
  const waistUm = (g.waistXUm + g.waistYUm) / 2
  return [
    side(g.emitterMfdXUm, g.emitterMfdYUm, frontUm - waistUm, shapes[0], g.lens1.matrix),
    side(g.receiverMfdXUm, g.receiverMfdYUm, backUm, shapes[1], { a: d, b, c, d: a }),
  ]
}

const KEPT = 600
const fields = new Map<string, RingField | null>()
const spectra = new WeakMap<RingField, { most: number; spectrum: RingSpectrum }>()

/** The field of a side in the parallel beam; the last ones are remembered. */
function fieldOf(side: Side): RingField | null {
  const key = JSON.stringify(side)
  const found = fields.get(key)
  if (found !== undefined) return found
  const { mode, lens, matrix, mediumIndex } = side
  const made = lens === null ? paraxialField(mode, matrix, mediumIndex) : collimatedField(mode, lens, matrix)
  if (fields.size >= KEPT) fields.clear()
  fields.set(key, made)
  return made
}

function spectrumOf(field: RingField, most: number, q: Float64Array): RingSpectrum {
  const known = spectra.get(field)
  if (known?.most === most) return known.spectrum
  const spectrum = ringSpectrum(field, q)
  spectra.set(field, { most, spectrum })
  return spectrum
}

/** Both losses at the given distances of the end faces from their lenses. */
export function realRelay(
  g: RelayGeometry,
  shapes: readonly [LensShape | null, LensShape | null],
  frontUm: number,
  backUm: number,
  narrowestUm?: number,
): RealRelay | null {
  const [near, far] = sidesOf(g, shapes, frontUm, backUm)
  const [first, second] = [fieldOf(near), fieldOf(far)]
  if (first === null || second === null) return null
  const least = narrowestUm ?? Math.min(first.beamRadiusUm, second.beamRadiusUm)
  const waves = waveNodes(least, SPREAD)
  const stretchUm = Math.max(0, g.stretchUm - g.deviceLengthUm * (1 - 1 / g.deviceIndex))
  const coupled = coupledOver(
    spectrumOf(first, least, waves.q),
    spectrumOf(second, least, waves.q),
    waves,
    stretchUm,
    (2 * Math.PI * g.mediumIndex) / g.wavelengthUm,
  )
  const mfdUm = 2 * near.mode.waistRadiusUm
  const receiverUm = 2 * far.mode.waistRadiusUm
  const inLine = { offsetXUm: 0, offsetYUm: 0, offsetZUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const round: RelayGeometry = {
    ...g,
    ...inLine,
    emitterMfdXUm: mfdUm,
    emitterMfdYUm: mfdUm,
    receiverMfdXUm: receiverUm,
    receiverMfdYUm: receiverUm,
    rollRad: 0,
    frontGapUm: frontUm,
    backGapUm: backUm,
    lens1: { ...g.lens1, ...inLine },
    lens2: { ...g.lens2, ...inLine },
  }
  const paraxialDb = jointLossDb(atReceiver(relayJoint(round, relayState(round))))
  return {
    realDb: Math.min(MOST_DB, -10 * Math.log10(coupled)),
    paraxialDb: Math.min(MOST_DB, paraxialDb),
    sides: [first, second],
  }
}

/** The aberration of a relay as a function of its values. */
export interface RelayAberration {
  /** Real less paraxial joint, dB. */
  readonly differenceDb: (g: RelayGeometry, frontUm: number, backUm: number) => number
  readonly nominal: () => RealRelay | null
  /** Of both lenses; null for one known by its focal length only. */
  readonly qualities: () => readonly (WavefrontQuality | null)[]
}

/** Points of the polynomial along each distance, and its half width in Rayleigh ranges of the guide's mode. */
const POINTS = 9
const HALF_RANGES = 2

const NODES = Float64Array.from({ length: POINTS }, (_, i) => Math.cos((Math.PI * (i + 0.5)) / POINTS))
/** Barycentric weights of the Chebyshev points of the first kind. */
const WEIGHTS = NODES.map((_, i) => (i % 2 === 0 ? 1 : -1) * Math.sin((Math.PI * (i + 0.5)) / POINTS))

/** Shares with which the values at the nodes make the value at t, written into `out`. */
function shares(t: number, out: Float64Array): void {
  let sum = 0
  for (let i = 0; i < POINTS; i++) {
    const distance = t - (NODES[i] ?? 0)
    if (distance === 0) {
      out.fill(0)
      out[i] = 1
      return
    }
    out[i] = (WEIGHTS[i] ?? 0) / distance
    sum += out[i] ?? 0
  }
  for (let i = 0; i < POINTS; i++) out[i] = (out[i] ?? 0) / sum
}

/** Real less paraxial joint of a geometry by its rays, dB; 0 where no ray gets through. */
export function exactAberration(
  shapes: readonly [LensShape | null, LensShape | null],
): RelayAberration['differenceDb'] {
  return (g, frontUm, backUm) => {
    const both = realRelay(g, shapes, frontUm, backUm)
    return both === null ? 0 : both.realDb - both.paraxialDb
  }
}

/** The aberration about the relay as `at` gives it with its values; null where neither lens is known by its faces. */
export function relayAberration(
  { lens1, lens2 }: { readonly lens1: LensReaders; readonly lens2: LensReaders },
  at: () => { readonly nominal: Values; readonly geometry: RelayGeometry },
): RelayAberration | null {
  if (lens1.real === null && lens2.real === null) return null
  const focus = (g: RelayGeometry) => {
    const [first, second] = [g.lens1.matrix, g.lens2.matrix]
    return [-first.d / first.c + g.waistXUm, -second.a / second.c] as const
  }
  const rayleigh = (g: RelayGeometry, mfdX: number, mfdY: number) =>
    (Math.PI * g.mediumIndex * mfdX * mfdY) / (4 * g.wavelengthUm)
  const prepare = () => {
    const { nominal: values, geometry: base } = at()
    const shapes = [lens1.real?.(values) ?? null, lens2.real?.(values) ?? null] as const
    const { frontGapUm, backGapUm } = relayState(base)
    const nominal = realRelay(base, shapes, frontGapUm, backGapUm)
    // One list of waves for all distances: the beams hardly change their radius.
    const narrowest =
      nominal === null ? 1 : 0.8 * Math.min(...nominal.sides.map(({ beamRadiusUm }) => beamRadiusUm))
    const direct = (frontUm: number, backUm: number): number => {
      const both = realRelay(base, shapes, Math.max(0, frontUm), Math.max(0, backUm), narrowest)
      return both === null ? 0 : both.realDb - both.paraxialDb
    }
    return {
      base,
      shapes,
      nominal,
      direct,
      focus: focus(base),
      at: [frontGapUm, backGapUm] as const,
      half: [
        HALF_RANGES * rayleigh(base, base.emitterMfdXUm, base.emitterMfdYUm),
        HALF_RANGES * rayleigh(base, base.receiverMfdXUm, base.receiverMfdYUm),
      ] as const,
    }
  }
  // A relay with faults is compiled too, and must not be traced.
  let ready: ReturnType<typeof prepare> | null = null
  const prepared = () => {
    ready ??= prepare()
    return ready
  }
  let table: Float64Array | null = null
  const fill = ({ direct, at, half }: ReturnType<typeof prepare>) =>
    Float64Array.from({ length: POINTS * POINTS }, (_, i) =>
      direct(
        at[0] + half[0] * (NODES[Math.floor(i / POINTS)] ?? 0),
        at[1] + half[1] * (NODES[i % POINTS] ?? 0),
      ),
    )
  const frontShares = new Float64Array(POINTS)
  const backShares = new Float64Array(POINTS)
  const difference = (frontUm: number, backUm: number): number => {
    const all = prepared()
    const { at, half, direct } = all
    const x = (frontUm - at[0]) / half[0]
    const y = (backUm - at[1]) / half[1]
    if (!(Math.abs(x) <= 1 && Math.abs(y) <= 1)) return direct(frontUm, backUm)
    // The budget itself is exact.
    if (x === 0 && y === 0) return direct(frontUm, backUm)
    table ??= fill(all)
    shares(x, frontShares)
    shares(y, backShares)
    let sum = 0
    for (let i = 0; i < POINTS; i++) {
      for (let j = 0; j < POINTS; j++) {
        sum += (frontShares[i] ?? 0) * (backShares[j] ?? 0) * (table[POINTS * i + j] ?? 0)
      }
    }
    return sum
  }
  let [lastFront, lastBack, last] = [Number.NaN, Number.NaN, 0]
  return {
    nominal: () => prepared().nominal,
    qualities: () => {
      const { shapes, nominal, base } = prepared()
      return shapes.map((shape, i) => {
        const field = nominal?.sides[i]
        return shape === null || field === undefined ? null : wavefrontQuality(field, base.wavelengthUm)
      })
    },
    differenceDb: (g, frontUm, backUm) => {
      const [front, back] = focus(g)
      const [frontNominal, backNominal] = prepared().focus
      const [frontThere, backThere] = [frontUm - front + frontNominal, backUm - back + backNominal]
      if (frontThere !== lastFront || backThere !== lastBack) {
        lastFront = frontThere
        lastBack = backThere
        last = difference(frontThere, backThere)
      }
      return last
    },
  }
}
