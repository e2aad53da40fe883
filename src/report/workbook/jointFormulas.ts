// The exact joint as cell formulas, one column a step: the same sums as optics/joint.ts (see there for the derivation and
// its sources), optics/misalignmentForm.ts and analysis/path/gap/gapValues.ts, written out so that a reviewer can follow them.

import type { PoseAxis } from '../../model/words/candidate'
import type { GaussianJoint } from '../../optics/index'
import { call, type FormulaTerm, literal, minus, most, over, plus, square, times } from './term'

/** Writes one step of a row and returns the reference to it. */
export type Put = (title: string, term: FormulaTerm) => FormulaTerm

const ONE = literal(1)
const TWO = literal(2)
const ZERO = literal(0)
const SPREAD = literal(4 / Math.PI)
const DB_A_NEPER = literal(80 / Math.LN10)
const MINUS_TEN = literal(-10)
const negative = (term: FormulaTerm) => minus(ZERO, term)

/** One end face: slope and width of the beam behind it, and what the face lets through (Snell, Fresnel). */
export interface FaceTerms {
  readonly slopeRad: FormulaTerm
  readonly widthScale: FormulaTerm
  readonly transmission: FormulaTerm
}

export function faceTerms(
  put: Put,
  side: string,
  guideIndex: FormulaTerm,
  mediumIndex: FormulaTerm,
  angleRad: FormulaTerm,
): FaceTerms {
  const refracted = put(
    `${side} face, angle in the medium, rad`,
    call('ASIN', over(times(guideIndex, call('SIN', angleRad)), mediumIndex)),
  )
  const cosGuide = call('COS', angleRad)
  const cosMedium = call('COS', refracted)
  const s = put(
    `${side} face, r s`,
    over(
      minus(times(guideIndex, cosGuide), times(mediumIndex, cosMedium)),
      plus(times(guideIndex, cosGuide), times(mediumIndex, cosMedium)),
    ),
  )
  const p = put(
    `${side} face, r p`,
    over(
      minus(times(guideIndex, cosMedium), times(mediumIndex, cosGuide)),
      plus(times(guideIndex, cosMedium), times(mediumIndex, cosGuide)),
    ),
  )
  return {
    slopeRad: put(`${side} face, slope, rad`, minus(refracted, angleRad)),
    widthScale: put(`${side} face, width relative to that in the waveguide`, over(cosMedium, cosGuide)),
    transmission: put(`${side} face, transmission`, minus(ONE, over(plus(square(s), square(p)), TWO))),
  }
}

export type JointTerms = { readonly [K in keyof GaussianJoint]: FormulaTerm }

/** M = A + B of the two modes, real and imaginary parts, without the turn by the roll. */
function matrixTerms(
  put: Put,
  joint: Omit<JointTerms, 'offsetXUm' | 'offsetYUm' | 'tiltXRad' | 'tiltYRad'>,
  tag: string,
) {
  const spread = put(`${tag}spread`, over(times(SPREAD, joint.wavelengthUm), joint.index))
  const axis = (name: string, mfd: FormulaTerm, waist: FormulaTerm) => {
    const path = put(`${tag}path ${name}`, times(minus(joint.gapUm, waist), spread))
    const mfd2 = square(mfd)
    const scale = put(`${tag}scale ${name}`, over(ONE, plus(square(mfd2), square(path))))
    return {
      a: put(`${tag}a ${name}`, times(mfd2, scale)),
      c: put(`${tag}c ${name}`, times(path, scale)),
    }
  }
  const x = axis('x', joint.emitterMfdXUm, joint.waistXUm)
  const y = axis('y', joint.emitterMfdYUm, joint.waistYUm)
  const sin2 = put(`${tag}sin² roll`, square(call('SIN', joint.rollRad)))
  const sinCos = put(`${tag}sin cos roll`, times(call('SIN', joint.rollRad), call('COS', joint.rollRad)))
  const bX = put(`${tag}b x`, over(ONE, square(joint.receiverMfdXUm)))
  const bY = put(`${tag}b y`, over(ONE, square(joint.receiverMfdYUm)))
  const aStep = minus(y.a, x.a)
  const cStep = minus(y.c, x.c)
  const m11 = put(`${tag}m11`, plus(x.a, times(aStep, sin2), bX))
  const m22 = put(`${tag}m22`, plus(minus(y.a, times(aStep, sin2)), bY))
  const m12 = put(`${tag}m12, negated`, times(aStep, sinCos))
  const c11 = put(`${tag}c11`, plus(x.c, times(cStep, sin2)))
  const c22 = put(`${tag}c22`, minus(y.c, times(cStep, sin2)))
  const c12 = put(`${tag}c12, negated`, times(cStep, sinCos))
  const re = put(
    `${tag}det, real`,
    plus(minus(minus(times(m11, m22), square(m12)), times(c11, c22)), square(c12)),
  )
  const im = put(`${tag}det, imaginary`, minus(plus(times(m11, c22), times(m22, c11)), times(TWO, m12, c12)))
  const perDet2 = put(`${tag}1 / |det|²`, over(ONE, plus(square(re), square(im))))
  return { spread, aX: x.a, aY: y.a, bX, bY, m11, m22, m12, c11, c22, c12, re, im, perDet2 }
}

/** Loss of the joint in dB; the logarithm is taken term by term, so that no power is too small for the number format. */
export function jointLossTerm(put: Put, joint: JointTerms): FormulaTerm {
  const m = matrixTerms(put, joint, '')
  const x = put('x at the receiver, µm', plus(joint.offsetXUm, times(joint.gapUm, joint.tiltXRad)))
  const y = put('y at the receiver, µm', plus(joint.offsetYUm, times(joint.gapUm, joint.tiltYRad)))
  const s = put('s', over(joint.tiltXRad, m.spread))
  const t = put('t', over(joint.tiltYRad, m.spread))
  const u = put('u', times(m.bX, x))
  const v = put('v', times(m.bY, y))
  const xx = minus(square(u), square(s))
  const yy = minus(square(v), square(t))
  const xy = minus(times(u, v), times(s, t))
  const twist = plus(times(u, t), times(v, s))
  const us = times(u, s)
  const vt = times(v, t)
  const re = put(
    'g adj(M) g, real',
    minus(
      plus(times(xx, m.m22), times(yy, m.m11)),
      times(
        TWO,
        plus(minus(plus(times(us, m.c22), times(vt, m.c11)), times(xy, m.m12)), times(twist, m.c12)),
      ),
    ),
  )
  const im = put(
    'g adj(M) g, imaginary',
    plus(
      times(xx, m.c22),
      times(yy, m.c11),
      times(TWO, plus(times(us, m.m22), times(vt, m.m11), times(twist, m.m12), times(xy, m.c12))),
    ),
  )
  const exponent = put(
    'exponent / 8',
    minus(minus(times(plus(times(re, m.re), times(im, m.im)), m.perDet2), times(u, x)), times(v, y)),
  )
  const factor = put(
    'efficiency, pre-exponential factor',
    times(literal(4), call('SQRT', times(m.aX, m.aY, m.bX, m.bY, m.perDet2))),
  )
  put('efficiency', times(factor, call('EXP', times(literal(8), exponent))))
  return put(
    'coupling loss, dB',
    most(ZERO, minus(times(MINUS_TEN, call('LOG10', factor)), times(DB_A_NEPER, exponent))),
  )
}

export function faceLossTerm({ transmission }: FaceTerms): FormulaTerm {
  return times(MINUS_TEN, call('LOG10', transmission))
}

/** What is left of the light, 0 to 1. */
export function efficiencyTerm(lossDb: FormulaTerm): FormulaTerm {
  const nepers = literal(-Math.LN10 / 10)
  return call('EXP', times(nepers, lossDb))
}

/** Sets of aligned degrees that have a closed form here; for others the pose is carried as numbers. */
export function alignsInClosedForm(aligned: readonly PoseAxis[]): boolean {
  return aligned.every((axis) => axis === 'offsetX' || axis === 'offsetY' || axis === 'roll')
}

/**
 * Offsets after alignment on power: where the loss is least for the present tilts, plus the residual misalignment.
 * The excess loss is the quadratic form of optics/misalignmentForm.ts; a common factor is omitted from it here.
 */
export function alignedOffsets(
  put: Put,
  aligned: readonly PoseAxis[],
  joint: JointTerms,
): { readonly x: FormulaTerm; readonly y: FormulaTerm } {
  const [alignsX, alignsY] = [aligned.includes('offsetX'), aligned.includes('offsetY')]
  if (!alignsX && !alignsY) return { x: joint.offsetXUm, y: joint.offsetYUm }
  // Receiver and emitter are scaled as in the joint: B = 1 / MFD², k / 2 = 1 / spread.
  const rollRad = aligned.includes('roll') ? ZERO : joint.rollRad
  const m = matrixTerms(put, { ...joint, rollRad, gapUm: most(ZERO, joint.gapUm) }, 'alignment, ')
  const z = most(ZERO, joint.gapUm)
  const half = over(ONE, m.spread)
  const s11 = times(plus(times(m.m22, m.re), times(m.c22, m.im)), m.perDet2)
  const s12 = times(plus(times(m.m12, m.re), times(m.c12, m.im)), m.perDet2)
  const s22 = times(plus(times(m.m11, m.re), times(m.c11, m.im)), m.perDet2)
  const t11 = times(minus(times(m.c22, m.re), times(m.m22, m.im)), m.perDet2)
  const t12 = times(minus(times(m.c12, m.re), times(m.m12, m.im)), m.perDet2)
  const t22 = times(minus(times(m.c11, m.re), times(m.m11, m.im)), m.perDet2)
  const o11 = put('alignment, h x x', minus(m.bX, times(m.bX, s11, m.bX)))
  const o12 = put('alignment, h x y', negative(times(m.bX, s12, m.bY)))
  const o22 = put('alignment, h y y', minus(m.bY, times(m.bY, s22, m.bY)))
  const { tiltXRad: tx, tiltYRad: ty } = joint
  const rx = put(
    'alignment, gradient x',
    negative(
      plus(
        times(plus(times(z, o11), times(half, m.bX, t11)), tx),
        times(plus(times(z, o12), times(half, m.bX, t12)), ty),
      ),
    ),
  )
  const ry = put(
    'alignment, gradient y',
    negative(
      plus(
        times(plus(times(z, o12), times(half, m.bY, t12)), tx),
        times(plus(times(z, o22), times(half, m.bY, t22)), ty),
      ),
    ),
  )
  if (!alignsY) {
    const best = over(minus(rx, times(o12, joint.offsetYUm)), o11)
    return { x: put('aligned offset x, µm', plus(best, joint.offsetXUm)), y: joint.offsetYUm }
  }
  if (!alignsX) {
    const best = over(minus(ry, times(o12, joint.offsetXUm)), o22)
    return { x: joint.offsetXUm, y: put('aligned offset y, µm', plus(best, joint.offsetYUm)) }
  }
  const det = minus(times(o11, o22), square(o12))
  const bestX = over(minus(times(o22, rx), times(o12, ry)), det)
  const bestY = over(minus(times(o11, ry), times(o12, rx)), det)
  return {
    x: put('aligned offset x, µm', plus(bestX, joint.offsetXUm)),
    y: put('aligned offset y, µm', plus(bestY, joint.offsetYUm)),
  }
}
