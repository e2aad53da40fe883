// What angling its end face adds to the return loss of a fibre, by the exact mode of its step-index core.
//   added = -20 log10 |int E^2 J0(q r) r dr / int E^2 r dr|,  q = 4 pi n theta / lambda
// The reflected mode is the mode turned by twice the angle theta; a Gaussian in place of E gives turnedReturnDb. The
// exponential tails of the real mode hold more of the high spatial frequencies that such a turn asks for, so that its
// return loss is lower, and it has nulls and side lobes, where a Gaussian falls without end.
// Source: the overlap integral of D. Marcuse, Appl. Opt. 14 (1975) 3016 (from memory), own evaluation with the LP01
// field of D. Gloge, Appl. Opt. 10 (1971) 2252. Scalar, no scatter. Micrometres, radians, dB.

import { besselJ0 } from '../../numerics/bessel'
import { requireInRange, requirePositive } from '../../numerics/inputError'
import { panelRule } from '../../numerics/quadrature'
import { type Lp01Mode, lp01Field } from '../fibre/lp01Field'
import { solveLp01, stepIndexMode } from '../fibre/stepIndexMode'

/** A step-index core, stretched along x and y where its mode is not round. */
export interface StepIndexCore {
  readonly V: number
  readonly radiusXUm: number
  readonly radiusYUm: number
}

interface TurnedMode {
  readonly wavelengthUm: number
  readonly guideIndex: number
  readonly core: StepIndexCore
  /** Angle of the face's normal to the guide's axis, per axis. */
  readonly angleXRad: number
  readonly angleYRad: number
}

/** Normalised frequencies at which standard and small-mode fibres are run. Common practice, no source. */
export const ASSUMED_V = { standard: 2, smallMode: 1.8 } as const
/** Single-mode fibres are run between these. Common practice, no source. */
export const USUAL_V = { least: 1.6, most: 2.4 } as const
/** Modes below so many wavelengths are treated as small: standard fibres have 6 to 7. Common practice, no source. */
const SMALL_MODE_WAVELENGTHS = 5

/** Steepest face: the reflected mode then leaves at twice the angle, and a scalar overlap means little. */
const STEEPEST_FACE_RAD = 0.7
/** Shares of the power smaller than this are not distinguished from 0; 200 dB. */
const LEAST_SHARE = 1e-10
/** Tails beyond so many decay lengths hold no power. */
const TAIL_DECAYS = 16
const POINTS = 16
/** Phase q r that one panel of the rule spans at most; 16 points then hold the integral to 1e-12. */
const PHASE_A_PANEL = 6

const widths = new Map<number, number>()

/** Best-Gaussian radius over core radius. */
function widthPerRadius(V: number): number {
  const known = widths.get(V)
  if (known !== undefined) return known
  const na = 0.01
  const { bestGaussianMfdUm } = stepIndexMode({ coreRadiusUm: 1, na, wavelengthUm: (2 * Math.PI * na) / V })
  widths.set(V, bestGaussianMfdUm / 2)
  return bestGaussianMfdUm / 2
}

/** The core assumed for a fibre known by its mode-field diameters only: ASSUMED_V decides its V. */
export function equivalentCore(mfdXUm: number, mfdYUm: number, wavelengthUm: number): StepIndexCore {
  requirePositive('mfdXUm', mfdXUm)
  requirePositive('mfdYUm', mfdYUm)
  const wavelengths = Math.sqrt(mfdXUm * mfdYUm) / requirePositive('wavelengthUm', wavelengthUm)
  const V = wavelengths < SMALL_MODE_WAVELENGTHS ? ASSUMED_V.smallMode : ASSUMED_V.standard
  const width = widthPerRadius(V)
  return { V, radiusXUm: mfdXUm / 2 / width, radiusYUm: mfdYUm / 2 / width }
}

/** E^2 r dr on nodes fine enough for J0(q r); radii in core radii. */
function weightedSquares(mode: Lp01Mode, q: number): readonly [radius: Float64Array, weight: Float64Array] {
  const longest = q > 0 ? Math.min(1, PHASE_A_PANEL / q) : 1
  const reach = 1 + TAIL_DECAYS / mode.W
  const breaks = [0]
  const fill = (to: number) => {
    const from = breaks.at(-1) ?? 0
    const count = Math.ceil((to - from) / longest)
    for (let i = 1; i <= count; i++) breaks.push(from + ((to - from) * i) / count)
  }
  fill(1)
  fill(reach)
  const { nodes, weights } = panelRule(breaks, POINTS)
  return [
    nodes,
    weights.map((weight, i) => weight * (nodes[i] as number) * lp01Field(mode, nodes[i] as number) ** 2),
  ]
}

/** int E^2 J0(q r) r dr / int E^2 r dr of LP01, q per core radius; 1 at q = 0, negative beyond the first null. */
export function lp01TurnedOverlap(V: number, q: number): number {
  const mode = solveLp01(V)
  const [radius, weight] = weightedSquares(mode, q)
  let turned = 0
  let power = 0
  for (let i = 0; i < radius.length; i++) {
    turned += (weight[i] as number) * besselJ0(q * (radius[i] as number))
    power += weight[i] as number
  }
  return turned / power
}

/**
 * What the angle of an end face adds to its return loss, dB, whatever its reflectance; 0 for a square face. Throws
 * InputError for lengths and indices at 0 or below, V outside 0.6 to 20, or angles beyond 0.7 rad.
 */
export function turnedModeDb(face: TurnedMode): number {
  const { wavelengthUm, guideIndex, core } = face
  requirePositive('wavelengthUm', wavelengthUm)
  requirePositive('guideIndex', guideIndex)
  requirePositive('radiusXUm', core.radiusXUm)
  requirePositive('radiusYUm', core.radiusYUm)
  requireInRange('angleXRad', face.angleXRad, -STEEPEST_FACE_RAD, STEEPEST_FACE_RAD)
  requireInRange('angleYRad', face.angleYRad, -STEEPEST_FACE_RAD, STEEPEST_FACE_RAD)
  const turn = Math.hypot(core.radiusXUm * face.angleXRad, core.radiusYUm * face.angleYRad)
  if (turn === 0) return 0
  const overlap = lp01TurnedOverlap(core.V, (4 * Math.PI * guideIndex * turn) / wavelengthUm)
  return 0 - 10 * Math.log10(Math.max(overlap * overlap, LEAST_SHARE ** 2))
}

const V_STEPS = 8

/**
 * The least that the angle adds among cores of USUAL_V whose modes are as wide as that of `face.core`, dB: what a fibre may return
 * that is known by its mode-field diameter only. Throws InputError as turnedModeDb.
 */
export function leastTurnedModeDb(face: TurnedMode): number {
  const wide = widthPerRadius(face.core.V)
  let least = turnedModeDb(face)
  for (let i = 0; i <= V_STEPS; i++) {
    const V = USUAL_V.least + ((USUAL_V.most - USUAL_V.least) * i) / V_STEPS
    const scale = wide / widthPerRadius(V)
    const core = { V, radiusXUm: face.core.radiusXUm * scale, radiusYUm: face.core.radiusYUm * scale }
    least = Math.min(least, turnedModeDb({ ...face, core }))
  }
  return least
}

const ANGLE_STEPS = 160
const REFINEMENTS = 40

/**
 * The least face angle from which on, for every steeper one up to 0.7 rad, the own face returns `returnLossDb` or more:
 * a null of the overlap that a side lobe follows is ignored. 0 where the square face already does; 0.7 rad, which is
 * then not enough, where none does. `core` is that in the plane of the angle. Throws InputError as turnedModeDb, and for a
 * reflectance outside 0 to 1.
 */
export function coreAngleForReturnLoss(
  guide: Pick<TurnedMode, 'wavelengthUm' | 'guideIndex' | 'core'>,
  reflectance: number,
  returnLossDb: number,
): number {
  requireInRange('reflectance', reflectance, 0, 1)
  requireInRange('returnLossDb', returnLossDb, 0, 200)
  const missingDb = returnLossDb + 10 * Math.log10(reflectance)
  if (!(missingDb > 0)) return 0
  const short = (angleXRad: number) => turnedModeDb({ ...guide, angleXRad, angleYRad: 0 }) < missingDb
  let step = ANGLE_STEPS
  while (step > 0 && !short((STEEPEST_FACE_RAD * step) / ANGLE_STEPS)) step--
  if (step === ANGLE_STEPS) return STEEPEST_FACE_RAD
  let low = (STEEPEST_FACE_RAD * step) / ANGLE_STEPS
  let high = (STEEPEST_FACE_RAD * (step + 1)) / ANGLE_STEPS
  for (let i = 0; i < REFINEMENTS; i++) {
    const middle = (low + high) / 2
    if (short(middle)) low = middle
    else high = middle
  }
  return high
}
