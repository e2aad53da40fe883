// The aberration of a relay as a function of its values: exact at the nominal ones. The distance of both end faces from the paraxial
// foci of their lenses is what matters along the axis, so that index, wavelength and temperature carry it along.
// Movements across the axis follow a fit over the region of the tolerances (field/fit/relayDifference.ts). Where none is known, the
// aberration follows the distances alone, by a polynomial through a few exact values.

import { type PlaneTable, planeTable } from '../../../numerics/polynomial/planeTable'
import { type WavefrontQuality, wavefrontQuality } from '../../../optics/index'
import type { JointRegion } from '../../field/fit/jointAxes'
import { fitOf, relaySumsOf } from '../../field/fit/knownFits'
import { RELAY_AXES, type RelayFields, type RelaySides } from '../../field/fit/relayAxes'
import { relayDifference } from '../../field/fit/relayDifference'
import { relayDirections, toDirections } from '../../field/fit/relayDirections'
import { type MovedAberration, movedAberration, movedWords } from '../guides/movedAberration'
import type { Sums } from '../vector/elementModels'
import type { Values } from '../vector/valueReaders'
import type { LensReaders } from './lensReaders'
import {
  type AlongDb,
  differenceAlong,
  opticalStretchUm,
  type RelayLight,
  relayLight,
  relayWaves,
  sidesOf,
} from './realRelay'
import {
  aboutAxis,
  BACK,
  FRONT,
  fillAcross,
  holdsAxis,
  isAlongside,
  movesAcross,
  type RelayCoordinates,
} from './relayCoordinates'
import { acrossAlike, isInLine, type RelayGeometry } from './relayGeometry'
import { type RelayState, relayState } from './relayOptics'

export interface RelayAberration {
  /** By the distances of the end faces alone, for a station that searches them. */
  readonly alongDb: AlongDb
  /** Real less paraxial joint, dB. */
  readonly differenceDb: (g: RelayGeometry, state: RelayState) => number
  readonly nominal: () => RelayLight | null
  /** For moves beyond the tolerances; null where no ray gets through. */
  readonly fields: () => RelayFields | null
  /** Of both lenses; null for one defined by its focal length only. */
  readonly qualities: () => readonly (WavefrontQuality | null)[]
  /** Whether its movement across the axis waits for a fit; known once a movement has been requested. */
  readonly awaitsFit: () => boolean
  /** How far its fit is off, dB; null where there is none. */
  readonly fitErrorDb: () => number | null
  /** What it adds, summed exactly, beyond `differenceDb` by the fit at vectors of values, dB; 'pending' while that is computed elsewhere. */
  readonly beyondFitDb: (at: readonly Values[]) => readonly number[] | 'pending'
  /** How tolerances, yield and temperature move it. */
  readonly moves: () => string
}

/** Points of the table of each distance, and its half width in Rayleigh ranges of the guide's mode. */
const POINTS = 9
const HALF_RANGES = 2
/** Points over the region of the tolerances, which is smaller. */
const REGION_POINTS = 5

/** What displaced and tilted guides and lenses add at the given values, dB; 0 where no ray gets through. */
function acrossDbOf(sides: RelaySides, g: RelayGeometry, state: RelayState): number {
  if (isInLine(g)) return 0
  const of = relayDifference(sides)
  const at = new Float64Array(RELAY_AXES.length)
  at[FRONT] = state.frontGapUm
  at[BACK] = state.backGapUm
  const { differenceDb: inLineDb } = of(at)
  fillAcross(g, state, at)
  const { differenceDb } = of(at)
  return differenceDb === 0 ? 0 : differenceDb - inLineDb
}

/** How a relay moves: its geometry at a vector of values, and where tolerances and conditions take it; null where they leave it. */
interface RelayMovement {
  readonly geometryAt: (v: Values) => RelayGeometry
  readonly movesOf: (coordinates: RelayCoordinates) => readonly Float64Array[]
  readonly regionOf: (coordinates: RelayCoordinates) => JointRegion | null
}

/** The aberration about the relay as `at` gives it with its values; null where neither lens is known by its faces. */
export function relayAberration(
  { lens1, lens2 }: { readonly lens1: LensReaders; readonly lens2: LensReaders },
  at: () => { readonly nominal: Values; readonly geometry: RelayGeometry },
  { geometryAt, movesOf, regionOf }: RelayMovement,
  sums: Sums,
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
    const state = relayState(base)
    const shapes = [lens1.real?.(values) ?? null, lens2.real?.(values) ?? null] as const
    const { frontGapUm, backGapUm } = state
    const nominal = relayLight(base, shapes, frontGapUm, backGapUm)
    // One list of waves for all distances: the beams hardly change their radius.
    const narrowest =
      nominal === null ? 1 : 0.8 * Math.min(...nominal.map(({ beamRadiusUm }) => beamRadiusUm))
    const difference = differenceAlong(base, shapes, relayWaves(base, narrowest))
    const direct = (frontUm: number, backUm: number): number =>
      difference(Math.max(0, frontUm), Math.max(0, backUm))
    const whole = { ...base, stretchUm: state.stretchUm }
    const [near, far] = sidesOf(whole, shapes, frontGapUm, backGapUm)
    const nearWaistUm = (base.waistXUm + base.waistYUm) / 2
    const sides: RelaySides = { near, far, nearWaistUm, stretchUm: opticalStretchUm(whole) }
    const acrossDb = acrossDbOf(sides, base, state)
    return {
      base,
      state,
      shapes,
      sides,
      nominal,
      direct,
      nominalDb: direct(frontGapUm, backGapUm) + acrossDb,
      /** What displaced and tilted lenses add at the nominal values. */
      acrossDb,
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
  let table: PlaneTable | null = null
  const isTabled = (frontUm: number, backUm: number): boolean => {
    const { at, half } = prepared()
    return Math.abs(frontUm - at[0]) <= half[0] && Math.abs(backUm - at[1]) <= half[1]
  }
  const tabled = (): PlaneTable => {
    const { at, half, direct } = prepared()
    table ??= planeTable(at, half, POINTS, direct)
    return table
  }
  /** By the distances alone. */
  const alongDb = (frontUm: number, backUm: number): number => {
    const { at, direct } = prepared()
    // The budget itself is exact.
    if (!isTabled(frontUm, backUm) || (frontUm === at[0] && backUm === at[1])) return direct(frontUm, backUm)
    return tabled()(frontUm, backUm)
  }
  const sides = (): RelaySides => prepared().sides
  const fillCoordinates = (g: RelayGeometry, state: RelayState, out: Float64Array): void => {
    fillAcross(g, state, out)
    const [front, back] = focus(g)
    const [frontNominal, backNominal] = prepared().focus
    out[FRONT] = state.frontGapUm - front + frontNominal
    out[BACK] = state.backGapUm - back + backNominal
  }
  const point = new Float64Array(RELAY_AXES.length)
  const nominalPoint = new Float64Array(RELAY_AXES.length)
  interface Moving extends MovedAberration {
    /** What the fit misses where nothing is displaced, over its region. */
    readonly missedDb: PlaneTable
  }
  const node = new Float64Array(RELAY_AXES.length)
  /** The nominal coordinates at other distances. */
  const nodeAt = (frontUm: number, backUm: number): Float64Array => {
    node.set(nominalPoint)
    node[FRONT] = frontUm
    node[BACK] = backUm
    return node
  }
  /** The directions of the fit and its region along them: about the axis, unless no assembly is near it. */
  const directedRegion = (coordinates: RelayCoordinates) => {
    const moves = movesOf(coordinates)
    const along = (isRound: boolean) => {
      const directions = relayDirections(moves, isRound)
      const region = regionOf((v, out) => {
        coordinates(v, out)
        toDirections(directions, out)
      })
      return { directions, region }
    }
    const round = along(true)
    if (round.region === null) return round
    return holdsAxis(round.region) ? { ...round, region: aboutAxis(round.region) } : along(false)
  }
  const startMoving = (): Moving | 'pending' | null => {
    const { base, state, nominal } = prepared()
    fillCoordinates(base, state, nominalPoint)
    if (nominal === null) return null
    const coordinates: RelayCoordinates = (v, out) => {
      const geometry = geometryAt(v)
      fillCoordinates(geometry, relayState(geometry), out)
    }
    const { directions, region } = directedRegion(coordinates)
    geometryAt(at().nominal) // whoever reads the relay's records next finds them as they were
    if (region === null || (isInLine(base) && !movesAcross(region))) return null
    const fit = fitOf({ kind: 'relay', sides: sides(), directions, region })
    if (fit === 'pending') return fit
    if (fit === null) return null
    const moved = movedAberration(fit, sides, directions, sums)
    const { valueDb } = moved
    const { from, to } = fit.region
    const over = (axis: number) => {
      const [low, high] = [from[axis] as number, to[axis] as number]
      return { at: (low + high) / 2, half: Math.max(1e-6, (high - low) / 2) }
    }
    const [front, back] = [over(FRONT), over(BACK)]
    const missedDb = planeTable(
      [front.at, back.at],
      [front.half, back.half],
      REGION_POINTS,
      (frontUm, backUm) => prepared().direct(frontUm, backUm) - valueDb(nodeAt(frontUm, backUm)),
    )
    return { ...moved, missedDb }
  }
  let moving: ReturnType<typeof startMoving> | undefined
  const movement = () => {
    if (moving === undefined) moving = startMoving()
    return moving
  }
  const alongAt: AlongDb = (g, frontUm, backUm) => {
    const [front, back] = focus(g)
    const [frontNominal, backNominal] = prepared().focus
    return alongDb(frontUm - front + frontNominal, backUm - back + backNominal)
  }
  return {
    alongDb: alongAt,
    nominal: () => prepared().nominal,
    fields: () => {
      const { base, state, nominal, nominalDb } = prepared()
      if (nominal === null) return null
      fillCoordinates(base, state, point)
      return { sides: sides(), at: [...point], nominalDb }
    },
    qualities: () => {
      const { shapes, nominal, base } = prepared()
      return shapes.map((shape, i) => {
        const field = nominal?.[i]
        return shape === null || field === undefined ? null : wavefrontQuality(field, base.wavelengthUm)
      })
    },
    awaitsFit: () => moving === 'pending',
    moves: () => {
      const now = movement()
      if (now === null)
        return 'For tolerances, yield and temperature, the aberration varies with the lens distances only.'
      if (now === 'pending')
        return 'For tolerances, yield and temperature, the aberration varies with the lens distances only, fit pending.'
      return movedWords(now.fit)
    },
    fitErrorDb: () => {
      const now = movement()
      return now === null || now === 'pending' ? null : now.fit.errorDb
    },
    beyondFitDb: (vectors) => {
      const now = movement()
      if (now === null || now === 'pending') return now === null ? vectors.map(() => 0) : now
      const { base, state: nominalState, focus: nominalFocus } = prepared()
      const pairs = vectors.map((v) => {
        const g = geometryAt(v)
        const state = relayState(g)
        if (acrossAlike(g, state, base, nominalState)) return null
        const at = new Float64Array(RELAY_AXES.length)
        fillCoordinates(g, state, at)
        const [front, back] = focus(g)
        const along = [
          state.frontGapUm - front + nominalFocus[0],
          state.backGapUm - back + nominalFocus[1],
        ] as const
        const isRead = now.reachesBeyond || isAlongside(now.fit, ...along)
        return { at, axial: Float64Array.from(nodeAt(...along)), isRead }
      })
      geometryAt(at().nominal)
      const points = pairs.flatMap((pair) => (pair === null ? [] : [[...pair.at], [...pair.axial]]))
      const found = relaySumsOf({ kind: 'relay points', sides: sides(), points })
      if (found === 'pending') return found
      let next = 0
      return pairs.map((pair) => {
        if (pair === null) return 0
        const [movedDb = Number.NaN, axialDb = Number.NaN] = found.slice(next, next + 2)
        next += 2
        const readDb = pair.isRead ? now.valueDb(pair.at) - now.valueDb(pair.axial) : 0
        const beyond = movedDb - axialDb - readDb
        return Number.isFinite(beyond) ? beyond : 0
      })
    },
    differenceDb: (g, state) => {
      const { base, state: nominalState, acrossDb, focus: nominalFocus } = prepared()
      const [front, back] = focus(g)
      const frontUm = state.frontGapUm - front + nominalFocus[0]
      const backUm = state.backGapUm - back + nominalFocus[1]
      if (acrossAlike(g, state, base, nominalState)) return acrossDb + alongDb(frontUm, backUm)
      const now = movement()
      if (now === null || now === 'pending') return acrossDb + alongDb(frontUm, backUm)
      const inside = isAlongside(now.fit, frontUm, backUm)
      if (!inside && !now.reachesBeyond) return acrossDb + alongDb(frontUm, backUm)
      fillCoordinates(g, state, point)
      if (!inside) {
        const shiftedDb = now.valueDb(point) - now.valueDb(nodeAt(frontUm, backUm))
        return acrossDb + alongDb(frontUm, backUm) + shiftedDb
      }
      // Along the light the rays are closer than the fit, and no jump is left where nothing is displaced.
      return acrossDb + now.valueDb(point) + now.missedDb(frontUm, backUm)
    },
  }
}
