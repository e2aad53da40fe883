// The exact joint as cell formulas, one column a step: the same sums as optics/joint.ts (see there for the derivation and
// its sources), optics/misalignmentForm.ts and analysis/path/gap/gapValues.ts, written out so that a reviewer can follow them.

import type { PoseAxis } from '../../model/words/candidate'
import type { GaussianJoint } from '../../optics/index'
import {
  call,
  differenceTerm,
  type FormulaTerm,
  literal,
  most,
  productTerm,
  quotientTerm,
  square,
  sumTerm,
} from './term'

/** Writes one step of a row and returns the reference to it. */
export type Put = (title: string, term: FormulaTerm) => FormulaTerm

const ONE = literal(1)
const TWO = literal(2)
const ZERO = literal(0)
const SPREAD = literal(4 / Math.PI)
const DB_A_NEPER = literal(80 / Math.LN10)
const MINUS_TEN = literal(-10)
const negative = (term: FormulaTerm) => differenceTerm(ZERO, term)

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
    call('ASIN', quotientTerm(productTerm(guideIndex, call('SIN', angleRad)), mediumIndex)),
  )
  const cosGuide = call('COS', angleRad)
  const cosMedium = call('COS', refracted)
  const s = put(
    `${side} face, r s`,
    quotientTerm(
      differenceTerm(productTerm(guideIndex, cosGuide), productTerm(mediumIndex, cosMedium)),
      sumTerm(productTerm(guideIndex, cosGuide), productTerm(mediumIndex, cosMedium)),
    ),
  )
  const p = put(
    `${side} face, r p`,
    quotientTerm(
      differenceTerm(productTerm(guideIndex, cosMedium), productTerm(mediumIndex, cosGuide)),
      sumTerm(productTerm(guideIndex, cosMedium), productTerm(mediumIndex, cosGuide)),
    ),
  )
  return {
    slopeRad: put(`${side} face, slope, rad`, differenceTerm(refracted, angleRad)),
    widthScale: put(
      `${side} face, width relative to that in the waveguide`,
      quotientTerm(cosMedium, cosGuide),
    ),
    transmission: put(
      `${side} face, transmission`,
      differenceTerm(ONE, quotientTerm(sumTerm(square(s), square(p)), TWO)),
    ),
  }
}

export type JointTerms = { readonly [K in keyof GaussianJoint]: FormulaTerm }

/** M = A + B of the two modes, real and imaginary parts, without the turn by the roll. */
function matrixTerms(
  put: Put,
  joint: Omit<JointTerms, 'offsetXUm' | 'offsetYUm' | 'tiltXRad' | 'tiltYRad'>,
  tag: string,
) {
  const spread = put(`${tag}spread`, quotientTerm(productTerm(SPREAD, joint.wavelengthUm), joint.index))
  const axis = (name: string, mfd: FormulaTerm, waist: FormulaTerm) => {
    const path = put(`${tag}path ${name}`, productTerm(differenceTerm(joint.gapUm, waist), spread))
    const mfd2 = square(mfd)
    const scale = put(`${tag}scale ${name}`, quotientTerm(ONE, sumTerm(square(mfd2), square(path))))
    return {
      a: put(`${tag}a ${name}`, productTerm(mfd2, scale)),
      c: put(`${tag}c ${name}`, productTerm(path, scale)),
    }
  }
  const x = axis('x', joint.emitterMfdXUm, joint.waistXUm)
  const y = axis('y', joint.emitterMfdYUm, joint.waistYUm)
  const sin2 = put(`${tag}sin² roll`, square(call('SIN', joint.rollRad)))
  const sinCos = put(
    `${tag}sin cos roll`,
    productTerm(call('SIN', joint.rollRad), call('COS', joint.rollRad)),
  )
  const bX = put(`${tag}b x`, quotientTerm(ONE, square(joint.receiverMfdXUm)))
  const bY = put(`${tag}b y`, quotientTerm(ONE, square(joint.receiverMfdYUm)))
  const aStep = differenceTerm(y.a, x.a)
  const cStep = differenceTerm(y.c, x.c)
  const m11 = put(`${tag}m11`, sumTerm(x.a, productTerm(aStep, sin2), bX))
  const m22 = put(`${tag}m22`, sumTerm(differenceTerm(y.a, productTerm(aStep, sin2)), bY))
  const m12 = put(`${tag}m12, negated`, productTerm(aStep, sinCos))
  const c11 = put(`${tag}c11`, sumTerm(x.c, productTerm(cStep, sin2)))
  const c22 = put(`${tag}c22`, differenceTerm(y.c, productTerm(cStep, sin2)))
  const c12 = put(`${tag}c12, negated`, productTerm(cStep, sinCos))
  const re = put(
    `${tag}det, real`,
    sumTerm(
      differenceTerm(differenceTerm(productTerm(m11, m22), square(m12)), productTerm(c11, c22)),
      square(c12),
    ),
  )
  const im = put(
    `${tag}det, imaginary`,
    differenceTerm(sumTerm(productTerm(m11, c22), productTerm(m22, c11)), productTerm(TWO, m12, c12)),
  )
  const perDet2 = put(`${tag}1 / |det|²`, quotientTerm(ONE, sumTerm(square(re), square(im))))
  return { spread, aX: x.a, aY: y.a, bX, bY, m11, m22, m12, c11, c22, c12, re, im, perDet2 }
}

/** Loss of the joint in dB; the logarithm is taken term by term, so that no power is too small for the number format. */
export function jointLossTerm(put: Put, joint: JointTerms): FormulaTerm {
  const m = matrixTerms(put, joint, '')
  const x = put('x at the receiver, µm', sumTerm(joint.offsetXUm, productTerm(joint.gapUm, joint.tiltXRad)))
  const y = put('y at the receiver, µm', sumTerm(joint.offsetYUm, productTerm(joint.gapUm, joint.tiltYRad)))
  const s = put('s', quotientTerm(joint.tiltXRad, m.spread))
  const t = put('t', quotientTerm(joint.tiltYRad, m.spread))
  const u = put('u', productTerm(m.bX, x))
  const v = put('v', productTerm(m.bY, y))
  const xx = differenceTerm(square(u), square(s))
  const yy = differenceTerm(square(v), square(t))
  const xy = differenceTerm(productTerm(u, v), productTerm(s, t))
  const twist = sumTerm(productTerm(u, t), productTerm(v, s))
  const us = productTerm(u, s)
  const vt = productTerm(v, t)
  const re = put(
    'g adj(M) g, real',
    differenceTerm(
      sumTerm(productTerm(xx, m.m22), productTerm(yy, m.m11)),
      productTerm(
        TWO,
        sumTerm(
          differenceTerm(sumTerm(productTerm(us, m.c22), productTerm(vt, m.c11)), productTerm(xy, m.m12)),
          productTerm(twist, m.c12),
        ),
      ),
    ),
  )
  const im = put(
    'g adj(M) g, imaginary',
    sumTerm(
      productTerm(xx, m.c22),
      productTerm(yy, m.c11),
      productTerm(
        TWO,
        sumTerm(
          productTerm(us, m.m22),
          productTerm(vt, m.m11),
          productTerm(twist, m.m12),
          productTerm(xy, m.c12),
        ),
      ),
    ),
  )
  const exponent = put(
    'exponent / 8',
    differenceTerm(
      differenceTerm(
        productTerm(sumTerm(productTerm(re, m.re), productTerm(im, m.im)), m.perDet2),
        productTerm(u, x),
      ),
      productTerm(v, y),
    ),
  )
  const factor = put(
    'efficiency, pre-exponential factor',
    productTerm(literal(4), call('SQRT', productTerm(m.aX, m.aY, m.bX, m.bY, m.perDet2))),
  )
  put('efficiency', productTerm(factor, call('EXP', productTerm(literal(8), exponent))))
  return put(
    'coupling loss, dB',
    most(
      ZERO,
      differenceTerm(productTerm(MINUS_TEN, call('LOG10', factor)), productTerm(DB_A_NEPER, exponent)),
    ),
  )
}

export function faceLossTerm({ transmission }: FaceTerms): FormulaTerm {
  return productTerm(MINUS_TEN, call('LOG10', transmission))
}

/** What is left of the light, 0 to 1. */
export function efficiencyTerm(lossDb: FormulaTerm): FormulaTerm {
  const nepers = literal(-Math.LN10 / 10)
  return call('EXP', productTerm(nepers, lossDb))
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
  const half = quotientTerm(ONE, m.spread)
  const s11 = productTerm(sumTerm(productTerm(m.m22, m.re), productTerm(m.c22, m.im)), m.perDet2)
  const s12 = productTerm(sumTerm(productTerm(m.m12, m.re), productTerm(m.c12, m.im)), m.perDet2)
  const s22 = productTerm(sumTerm(productTerm(m.m11, m.re), productTerm(m.c11, m.im)), m.perDet2)
  const t11 = productTerm(differenceTerm(productTerm(m.c22, m.re), productTerm(m.m22, m.im)), m.perDet2)
  const t12 = productTerm(differenceTerm(productTerm(m.c12, m.re), productTerm(m.m12, m.im)), m.perDet2)
  const t22 = productTerm(differenceTerm(productTerm(m.c11, m.re), productTerm(m.m11, m.im)), m.perDet2)
  const o11 = put('alignment, h x x', differenceTerm(m.bX, productTerm(m.bX, s11, m.bX)))
  const o12 = put('alignment, h x y', negative(productTerm(m.bX, s12, m.bY)))
  const o22 = put('alignment, h y y', differenceTerm(m.bY, productTerm(m.bY, s22, m.bY)))
  const { tiltXRad: tx, tiltYRad: ty } = joint
  const rx = put(
    'alignment, gradient x',
    negative(
      sumTerm(
        productTerm(sumTerm(productTerm(z, o11), productTerm(half, m.bX, t11)), tx),
        productTerm(sumTerm(productTerm(z, o12), productTerm(half, m.bX, t12)), ty),
      ),
    ),
  )
  const ry = put(
    'alignment, gradient y',
    negative(
      sumTerm(
        productTerm(sumTerm(productTerm(z, o12), productTerm(half, m.bY, t12)), tx),
        productTerm(sumTerm(productTerm(z, o22), productTerm(half, m.bY, t22)), ty),
      ),
    ),
  )
  if (!alignsY) {
    const best = quotientTerm(differenceTerm(rx, productTerm(o12, joint.offsetYUm)), o11)
    return { x: put('aligned offset x, µm', sumTerm(best, joint.offsetXUm)), y: joint.offsetYUm }
  }
  if (!alignsX) {
    const best = quotientTerm(differenceTerm(ry, productTerm(o12, joint.offsetXUm)), o22)
    return { x: joint.offsetXUm, y: put('aligned offset y, µm', sumTerm(best, joint.offsetYUm)) }
  }
  const det = differenceTerm(productTerm(o11, o22), square(o12))
  const bestX = quotientTerm(differenceTerm(productTerm(o22, rx), productTerm(o12, ry)), det)
  const bestY = quotientTerm(differenceTerm(productTerm(o11, ry), productTerm(o12, rx)), det)
  return {
    x: put('aligned offset x, µm', sumTerm(bestX, joint.offsetXUm)),
    y: put('aligned offset y, µm', sumTerm(bestY, joint.offsetYUm)),
  }
}
