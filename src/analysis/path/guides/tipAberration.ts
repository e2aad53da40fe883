// A ground tip in front of a Gaussian mode: what its real field, by Kirchhoff's integral over the sphere, loses
// beyond the joint of its best-fit Gaussian. The difference is exact at the nominal values; over the gap it moves as it does
// for a centred tip, across the axis by polynomials (tipOffAxis.ts), and with the radius and the fibre's mode as its overlap
// with the best-fit Gaussian does.

import { fixedText } from '../../../numerics/numberText'
import { chebyshevSeries, chebyshevValue } from '../../../numerics/polynomial/chebyshev'
import {
  atMostNoLight,
  type FieldJointSpec,
  type GaussianJoint,
  jointLossDb,
  lossDb,
  type TipSpectrum,
  tipEfficiency,
  tipSpectrum,
} from '../../../optics/index'
import { FIT_AXES, fillCoordinates, type JointRegion } from '../../field/fit/jointAxes'
import { sumsOf } from '../../field/fit/knownFits'
import type { PortReaders } from '../vector/elementModels'
import type { Values } from '../vector/valueReaders'
import type { FieldCorrection } from './fieldCorrection'
import { type TipPlace, tipOffAxis, tipPlaceAt } from './tipOffAxis'

const KEPT = 60
/** Radial sums against sampled fields. */
const SUM_ERROR_DB = 0.005
const known = new Map<string, TipSpectrum>()

/** The spectrum of the tip at one set of values; the last ones are remembered. */
function spectrumAt(
  port: PortReaders,
  v: Values,
  { wavelengthUm, index }: Pick<GaussianJoint, 'wavelengthUm' | 'index'>,
): TipSpectrum | null {
  const radiusUm = port.tip?.radiusUm?.(v)
  if (port.tip === undefined || radiusUm === undefined) return null
  const tip = {
    modeRadiusUm: port.tip.modeMfdXUm(v) / 2,
    tipRadiusUm: radiusUm,
    fibreIndex: port.index(v),
    mediumIndex: index,
    wavelengthUm,
  }
  const key = JSON.stringify(tip)
  const found = known.get(key)
  if (found !== undefined) return found
  const made = tipSpectrum(tip)
  if (known.size >= KEPT) known.clear()
  known.set(key, made)
  return made
}

/** Loss of the real field of a ground tip into the receiver of the joint, dB, what it clips included; null for other ports. */
function realTipLossDb(port: PortReaders, v: Values, joint: GaussianJoint): number | null {
  const spectrum = port.tip?.real === undefined ? null : spectrumAt(port, v, joint)
  return spectrum === null ? null : lossDb(tipEfficiency(spectrum, joint))
}

/** The aberration of a ground tip as a signed line; null where the port has none. */
export function tipAberration(
  elementId: string,
  port: PortReaders,
  nominal: Values,
  joint: GaussianJoint,
  spec: FieldJointSpec,
  region: () => JointRegion | null,
): FieldCorrection | null {
  const { tip } = port
  if (tip?.real === undefined) return null
  const { clippingDb, aberrationDb } = tip.real
  // As in the closed form of the budget, which the real field takes the place of.
  const gaussianDb = atMostNoLight(jointLossDb(joint))
  const [ownDb, waistUm] = [aberrationDb(nominal), port.waistXUm(nominal)]
  // An elliptical mode has no radial spectrum: it keeps what its two axes lose against their best Gaussians.
  const round = tip.modeMfdXUm === tip.modeMfdYUm
  const realDb = round ? realTipLossDb(port, nominal, joint) : null
  const centredDb = realDb === null ? null : overGap(port, nominal, joint)
  const offAxisDb = realDb === null ? () => 0 : offAxis(port, nominal, joint, region)
  const clippedDb = clippingDb(nominal)
  const here = (centredDb?.(joint.gapUm) ?? 0) + offAxisDb(joint)
  const restDb = realDb === null || !Number.isFinite(realDb) ? 0 : realDb - clippedDb - gaussianDb - here
  const differenceDb: FieldCorrection['differenceDb'] =
    centredDb === null
      ? aberrationDb
      : (v, n) => {
          const gapUm = n.gapUm - (port.waistXUm(v) - waistUm)
          const movedDb = centredDb(gapUm) + offAxisDb({ ...n, gapUm })
          return restDb + aberrationDb(v) - ownDb + movedDb
        }
  const line = {
    id: `${elementId}/aberration`,
    label: 'Aberration of the lensed fibre',
    kind: 'aberration',
    provenance: 'computed',
    elementId,
    note: `real field ${fixedText((realDb ?? gaussianDb + clippedDb + ownDb) - clippedDb, 3)} dB, its best-fit Gaussian ${fixedText(gaussianDb, 3)} dB`,
  } as const
  const view = {
    spec,
    nearName: 'real field of the lensed fibre',
    farName: 'Gaussian',
    loss: { fieldDb: realDb ?? 0, errorDb: SUM_ERROR_DB, gaussianDb },
  }
  return {
    view: realDb === null ? null : view,
    differenceDb,
    beyondFitDb: beyondModel(spec, joint, (place) => (centredDb?.(place.gapUm) ?? 0) + offAxisDb(place)),
    line,
    notes: [],
  }
}

/**
 * What the field of the tip loses beyond what its Gaussian and `modelDb` do, dB, by sums over its plane waves. The
 * spot stays that of the nominal tip, as radius and mode have an aberration of their own.
 */
function beyondModel(
  spec: FieldJointSpec,
  joint: GaussianJoint,
  modelDb: (place: TipPlace) => number,
): NonNullable<FieldCorrection['beyondFitDb']> {
  const upright = (point: readonly number[]) => point.with(EMITTER_X, 1).with(EMITTER_Y, 1)
  const here = new Float64Array(FIT_AXES.length)
  fillCoordinates(joint, joint.index, joint.wavelengthUm, joint, here)
  return (points) => {
    const sums = sumsOf({ kind: 'points', spec, nominal: joint, points: [[...here], ...points.map(upright)] })
    if (sums === 'pending') return sums
    const [nominalDb = Number.NaN, ...movedDb] = sums
    return movedDb.map((db, i) => {
      const beyond = db - nominalDb - (modelDb(tipPlaceAt(points[i] ?? here)) - modelDb(joint))
      return Number.isFinite(beyond) ? beyond : 0
    })
  }
}

const EMITTER_X = FIT_AXES.indexOf('emitterX')
const EMITTER_Y = FIT_AXES.indexOf('emitterY')

/** Points of the difference over the gap, and how far it reaches: so many working distances. */
const GAP_POINTS = 32
const GAP_REACH = 2.5

/** Real less Gaussian loss at a place, dB, without what the tip clips. */
function excessAt(port: PortReaders, nominal: Values, joint: GaussianJoint): (place: TipPlace) => number {
  const clippedDb = port.tip?.real?.clippingDb(nominal) ?? 0
  return (place) => {
    const at = { ...joint, ...place }
    return (realTipLossDb(port, nominal, at) ?? 0) - clippedDb - atMostNoLight(jointLossDb(at))
  }
}

const ON_AXIS = { offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }

/** That of the centred, upright tip over the gap. */
function overGap(port: PortReaders, nominal: Values, joint: GaussianJoint): (gapUm: number) => number {
  const excessDb = excessAt(port, nominal, joint)
  const furthest = GAP_REACH * port.waistXUm(nominal)
  const series = chebyshevSeries((gapUm) => excessDb({ ...ON_AXIS, gapUm }), 0, furthest, GAP_POINTS)
  return (gapUm) => chebyshevValue(series, Math.min(furthest, Math.max(0, gapUm)))
}

/** What it grows by off the axis; nothing is summed before it is asked for. */
function offAxis(
  port: PortReaders,
  nominal: Values,
  joint: GaussianJoint,
  regionOf: () => JointRegion | null,
): (place: TipPlace) => number {
  let made: ((place: TipPlace) => number) | null = null
  return (place) => {
    if (place.offsetXUm === 0 && place.offsetYUm === 0 && place.tiltXRad === 0 && place.tiltYRad === 0)
      return 0
    if (made === null) {
      const region = regionOf()
      made = region === null ? () => 0 : tipOffAxis(excessAt(port, nominal, joint), region)
    }
    return made(place)
  }
}
