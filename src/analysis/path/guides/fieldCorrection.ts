// What a gap or an abrupt splice loses by the fields of its modes beyond what it loses by their Gaussians: one signed line of the
// budget, exact at the nominal values. Tolerances, temperatures and wavelengths move it by a fit over the region that they reach.

import { fixedText, significantText } from '../../../numerics/numberText'
import { sparseValue } from '../../../numerics/polynomial/sparseValue'
import type { FieldJointSpec, GaussianJoint, ModeAtFace } from '../../../optics/index'
import { atMostNoLight, jointLossDb } from '../../../optics/index'
import { FIT_AXES, fillCoordinates, type JointRegion, type MovedJoint } from '../../field/fit/jointAxes'
import { FIT_ERROR_DB } from '../../field/fit/jointFit'
import { directSums, fitOf, sumsOf } from '../../field/fit/knownFits'
import { summedBeyond, type ValueAt } from '../../field/fit/summedBeyond'
import { fieldLoss } from '../../field/jointField'
import type { JointFieldView, ValidityNote } from '../../results/evaluation'
import type { ChainContext, LineModel, PortReaders } from '../vector/elementModels'
import type { Values } from '../vector/valueReaders'
import { tipAberration } from './tipAberration'

export interface FieldCorrection {
  readonly view: JointFieldView | null
  /** Real less Gaussian joint, dB, for the numbers that the vector makes of the joint. Allocates nothing. */
  readonly differenceDb: (v: Values, n: MovedJoint, mediumIndex: number, wavelengthUm: number) => number
  /** What the real joint loses at sets of coordinates (FIT_AXES) beyond that, dB; absent where nothing moves it. */
  readonly beyondFitDb?: (points: readonly (readonly number[])[]) => readonly number[] | 'pending'
  /** How far the fit is off where it misses its target, dB. */
  readonly fitMissesDb?: number
  readonly line: Omit<LineModel, 'lossDb'> | null
  readonly notes: readonly ValidityNote[]
  /** Whether tolerances and conditions leave the difference as it is until its fit is known. */
  readonly awaitsFit?: boolean
}

const GAUSSIAN = 'Gaussian'

/** A shape alone seldom changes a joint by more. Common practice, no source. */
const OTHER_MODE_DB = 1

/** One side of a join: its port, and how much its face stretches the mode. */
export interface JoinSide {
  readonly port: PortReaders
  readonly stretchX: number
  readonly stretchY: number
}

/** The mode of one side: its shape where it has one, else the Gaussian that the joint already holds. */
function modeAtFace(
  { port, stretchX, stretchY }: JoinSide,
  nominal: Values,
  gaussian: ModeAtFace['mode'],
): ModeAtFace {
  const radiusUm = port.tip?.radiusUm?.(nominal)
  const tip = radiusUm === undefined ? null : { radiusUm, guideIndex: port.index(nominal) }
  if (port.shape !== undefined) return { mode: port.shape.mode, tip, stretchX, stretchY }
  if (tip === null || port.tip === undefined) {
    return { mode: gaussian, tip: null, stretchX: 1, stretchY: 1 }
  }
  const [mfdXUm, mfdYUm] = [port.tip.modeMfdXUm(nominal), port.tip.modeMfdYUm(nominal)]
  return { mode: { kind: 'gaussian', mfdXUm, mfdYUm, waistXUm: 0, waistYUm: 0 }, tip, stretchX, stretchY }
}

const areGaussian = (near: JoinSide, far: JoinSide) =>
  near.port.shape === undefined && far.port.shape === undefined

/**
 * A beam that is defined by its spot is that spot at its waist. The paraxial beam that it is at the face becomes it again by paraxial
 * propagation only; exact propagation would aberrate it, a spot of 2 µm at 1310 nm by 0.1 to 0.2 dB over 10 µm.
 */
const isSpot = ({ mode, tip }: ModeAtFace): boolean =>
  tip === null && mode.kind === 'gaussian' && (mode.waistXUm !== 0 || mode.waistYUm !== 0)

/** The fields on both sides; null where both are Gaussians that no sphere has formed. */
export function jointFields(
  near: JoinSide,
  far: JoinSide,
  nominal: Values,
  joint: GaussianJoint,
): FieldJointSpec | null {
  if (areGaussian(near, far) && near.port.tip?.real === undefined) return null
  const { wavelengthUm, index } = joint
  const emitter = modeAtFace(near, nominal, {
    kind: 'gaussian',
    mfdXUm: joint.emitterMfdXUm,
    mfdYUm: joint.emitterMfdYUm,
    waistXUm: joint.waistXUm,
    waistYUm: joint.waistYUm,
  })
  return {
    emitter,
    receiver: modeAtFace(far, nominal, {
      kind: 'gaussian',
      mfdXUm: joint.receiverMfdXUm,
      mfdYUm: joint.receiverMfdYUm,
      waistXUm: 0,
      waistYUm: 0,
    }),
    wavelengthUm,
    index,
    propagation: isSpot(emitter) ? 'paraxial' : 'exact',
  }
}

/**
 * The correction, or null where both modes are Gaussians. `joint` holds them, and the pose; `regionOf` gives how far the joint
 * can be taken, and null where nothing moves it. `sums` says how a joint is moved whose fit misses its target.
 */
export function fieldCorrection(
  elementId: string,
  near: JoinSide,
  far: JoinSide,
  nominal: Values,
  joint: GaussianJoint,
  regionOf: (nominal: GaussianJoint) => JointRegion | null,
  sums: ChainContext['sums'] = 'fitted',
): FieldCorrection | null {
  const spec = jointFields(near, far, nominal, joint)
  if (spec === null) return null
  if (areGaussian(near, far))
    return tipAberration(elementId, near.port, nominal, joint, spec, () => regionOf(joint))
  const gaussianDb = atMostNoLight(jointLossDb(joint))
  const loss = fieldLoss(spec, joint, gaussianDb)
  const view = {
    spec,
    nearName: near.port.shape?.name ?? GAUSSIAN,
    farName: far.port.shape?.name ?? GAUSSIAN,
    loss,
  }
  if ('refusal' in loss) {
    const message = `The field of this joint is not used: ${loss.refusal}. The budget uses Gaussian modes.`
    return { view, differenceDb: () => 0, line: null, notes: [{ elementId, message }] }
  }
  // What a tip clips is a separate line, and is contained in the field of the tip too.
  const clippedDb = near.port.tip?.real?.clippingDb(nominal) ?? 0
  const differenceDb = loss.fieldDb - clippedDb - gaussianDb
  const line: FieldCorrection['line'] = {
    id: `${elementId}/mode shape`,
    label: 'Non-Gaussian correction',
    kind: 'mode shape',
    provenance: 'computed',
    elementId,
    note: `${fixedText(gaussianDb, 3)} dB for Gaussian modes, ${fixedText(loss.fieldDb - clippedDb, 3)} dB by field overlap, numerical error ${errorText(loss.errorDb)} dB`,
  }
  const region = regionOf(joint)
  const moving = movingDifference(spec, joint, region, sums)
  const notes: ValidityNote[] = [
    {
      elementId,
      message: `Field overlap (${view.nearName} to ${view.farName}) gives ${fixedText(loss.fieldDb - clippedDb, 3)} dB for this joint, Gaussian modes ${fixedText(gaussianDb, 3)} dB. ${Math.abs(differenceDb) > OTHER_MODE_DB ? 'A difference this large suggests that the entered MFDs belong to another mode. ' : ''}${moving.words}`,
    },
  ]
  const { changeDb, changeAtDb } = moving
  const beyondFitDb = (points: readonly (readonly number[])[]) => {
    const sums = sumsOf({ kind: 'points', spec, nominal: joint, points })
    if (sums === 'pending') return sums
    return points.map((point, i) => {
      const beyond = (sums[i] ?? Number.NaN) - clippedDb - differenceDb - changeAtDb(point)
      return Number.isFinite(beyond) ? beyond : 0
    })
  }
  return {
    view: { ...view, moves: moving.words },
    differenceDb: (_v, n, mediumIndex, wavelengthUm) => differenceDb + changeDb(n, mediumIndex, wavelengthUm),
    ...(region !== null && { beyondFitDb }),
    ...(moving.fitMissesDb !== undefined && { fitMissesDb: moving.fitMissesDb }),
    line,
    notes,
    awaitsFit: moving.awaitsFit,
  }
}

interface MovingDifference {
  /** What the difference grows by from the nominal joint, dB. */
  readonly changeDb: (n: MovedJoint, mediumIndex: number, wavelengthUm: number) => number
  /** The same at coordinates. */
  readonly changeAtDb: (point: ArrayLike<number>) => number
  /** What tolerances, yield and temperature move. */
  readonly words: string
  readonly awaitsFit: boolean
  readonly fitMissesDb?: number
}

/** How the difference moves with pose, sizes and wavelength. */
function movingDifference(
  spec: FieldJointSpec,
  joint: GaussianJoint,
  region: JointRegion | null,
  sums: ChainContext['sums'],
): MovingDifference {
  const still = () => 0
  const settled = { awaitsFit: false }
  const here = new Float64Array(FIT_AXES.length)
  fillCoordinates(joint, joint.index, joint.wavelengthUm, joint, here)
  const moved = (value: ValueAt): Pick<MovingDifference, 'changeDb' | 'changeAtDb'> => {
    const nominalDb = value(here)
    const at = Float64Array.from(here)
    return {
      changeDb: (n, mediumIndex, wavelengthUm) => {
        fillCoordinates(n, mediumIndex, wavelengthUm, joint, at)
        return value(at) - nominalDb
      },
      changeAtDb: (point) => value(Float64Array.from(point)) - nominalDb,
    }
  }
  if (region === null) {
    const only = { from: [...here], to: [...here] }
    const summed = sums === 'fitted' ? null : directSums()?.(spec, joint, only)
    return {
      ...(summed == null ? { changeDb: still, changeAtDb: still } : moved(summed)),
      words: 'Tolerances do not change this difference.',
      ...settled,
    }
  }
  const fit = fitOf({ kind: 'gap', spec, nominal: joint, region })
  if (fit === 'pending') {
    return {
      changeDb: still,
      changeAtDb: still,
      words: 'Tolerances, yield and temperature: Gaussian, fields pending.',
      awaitsFit: true,
    }
  }
  if (fit === null) {
    const words =
      'Tolerances, yield and temperature use the Gaussian joint plus this fixed difference, because the tolerances move the fields too far apart for a fit.'
    return { changeDb: still, changeAtDb: still, words, ...settled }
  }
  const missed = fit.errorDb > FIT_ERROR_DB
  const fitted = sparseValue(fit.series)
  const summed = () => directSums()?.(spec, joint, region) ?? null
  const exact = missed && sums === 'direct' ? summed() : null
  const value = sums === 'fitted' ? fitted : (exact ?? summedBeyond(fit.region, fitted, summed))
  return {
    ...moved(value),
    words: missed
      ? `The fit differs from the real fields by ${fixedText(fit.errorDb, 3)} dB, above the target of ${FIT_ERROR_DB} dB: RSS, worst case, yield, arrays, tolerance ranking, temperature and sizing are computed directly from the fields instead, which takes longer. Assembly sequences and production lots are too, with fewer simulated assemblies.`
      : `Tolerances, yield and temperature use the real fields; fit error ${fixedText(fit.errorDb, 3)} dB. The worst case is computed directly from the fields.`,
    ...settled,
    ...(missed && { fitMissesDb: fit.errorDb }),
  }
}

function errorText(errorDb: number): string {
  return errorDb < 1e-4 ? '0.0001' : significantText(errorDb, 1)
}
