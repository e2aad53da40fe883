import { lossDb } from '../../../src/optics/beam/decibel'
import { approximateStepIndex } from '../../../src/optics/fibre/stepIndexApproximations'
import { ALIGNED_POSE } from '../../../src/optics/field/fieldPose'
import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { offsetForLoss, tiltForLoss } from '../../../src/optics/joint/jointInverse'
import { type CheckRow, recordedRow } from '../checkRow'
import overlap from '../data/gaussian-overlap.json'
import { JOYCE_DELOACH, MARCUSE, NUMPY, SAMPLED_FIELD } from '../sources'

const DEGREE = Math.PI / 180

type Mfd = number | readonly [number, number]

/** A joint of two modes (x and y MFD, or one for both) at 1550 nm in air unless said otherwise. */
function joint(emitter: Mfd, receiver: Mfd, rest: Partial<GaussianJoint> = {}): GaussianJoint {
  const [emitterMfdXUm, emitterMfdYUm] = typeof emitter === 'number' ? [emitter, emitter] : emitter
  const [receiverMfdXUm, receiverMfdYUm] = typeof receiver === 'number' ? [receiver, receiver] : receiver
  return {
    wavelengthUm: 1.55,
    index: 1,
    emitterMfdXUm,
    emitterMfdYUm,
    receiverMfdXUm,
    receiverMfdYUm,
    ...ALIGNED_POSE,
    waistXUm: 0,
    waistYUm: 0,
    ...rest,
  }
}

const loss = (emitter: Mfd, receiver: Mfd, rest?: Partial<GaussianJoint>) => () =>
  lossDb(jointEfficiency(joint(emitter, receiver, rest)))

const offsetFor = (emitter: Mfd, receiver: Mfd, excessDb: number) => () =>
  offsetForLoss(joint(emitter, receiver), 'x', excessDb).upperUm

/**
 * The source places and turns the receiver by (x0, theta); here the emitter is placed and turned relative to the
 * receiver's axis, which is the same geometry seen from the other end.
 */
function receiverMoved(
  gapUm: number,
  x0: number,
  thetaX: number,
  y0 = 0,
  thetaY = 0,
): Partial<GaussianJoint> {
  return {
    gapUm,
    offsetXUm: -x0 + thetaX * gapUm,
    offsetYUm: -y0 + thetaY * gapUm,
    tiltXRad: -thetaX,
    tiltYRad: -thetaY,
  }
}

/** Worked numbers of the same formulas, six digits. */
function worked(id: string, quantity: string, input: string, expected: number, ours: () => number): CheckRow {
  return { id, quantity, source: MARCUSE, input, expected, unit: 'dB', tolerance: 1e-6, ours }
}

const textbookRadiusUm = (V: number, coreRadiusUm: number) =>
  approximateStepIndex('marcuse', V) * coreRadiusUm

export const jointChecks: readonly CheckRow[] = [
  {
    id: 'overlap-120',
    quantity: 'largest difference of the efficiency over 120 elliptical, rolled, tilted, displaced joints',
    source: `${SAMPLED_FIELD}, tests/reference/data/recipes/make_overlap.py; no closed form used`,
    input: 'all cases of gaussian-overlap.json',
    expected: 0,
    unit: '1',
    tolerance: 1e-12,
    ours: () => Math.max(...overlap.cases.map((one) => Math.abs(jointEfficiency(one) - one.efficiency))),
  },
  recordedRow('gc-mismatch-2', loss(10.4, 3)),
  recordedRow('gc-mismatch-5', loss(10.4, 6)),
  worked('gc-mismatch-10.4-9.2', 'mode-size mismatch', 'MFD 10.4 and 9.2 um', 0.065117, loss(10.4, 9.2)),
  worked('gc-mismatch-9.2-4', 'mode-size mismatch', 'MFD 9.2 and 4.0 um', 2.717856, loss(9.2, 4)),
  worked('gc-mismatch-3.2-4', 'mode-size mismatch', 'MFD 3.2 and 4.0 um', 0.214477, loss(3.2, 4)),
  recordedRow('gc-ell-2', loss(3.2, [4, 2.6])),
  worked(
    'gc-ell-5.2-8',
    'round fibre mode to elliptical facet mode',
    'MFD 5.2 um, facet 2.8 x 8.0 um',
    1.17494,
    loss(5.2, [2.8, 8]),
  ),
  recordedRow('gc-ell-rot', loss([4, 2.6], [4, 2.6], { rollRad: 30 * DEGREE })),
  {
    id: 'gc-ell-rot-off',
    quantity: 'efficiency of two equal ellipses 4.0 x 2.6 um rotated by 30 deg, displaced',
    source: `two-dimensional overlap summed with ${NUMPY}`,
    input: 'offset 0.5, -0.3 um',
    expected: 0.83016267,
    unit: '1',
    tolerance: 1e-8,
    // Which of the two modes is displaced does not matter: reversing the whole displacement changes nothing.
    ours: () =>
      jointEfficiency(joint([4, 2.6], [4, 2.6], { rollRad: 30 * DEGREE, offsetXUm: 0.5, offsetYUm: -0.3 })),
  },
  recordedRow('gc-off-0.5', loss(10.4, 10.4, { offsetXUm: 0.5 })),
  worked(
    'gc-off-1',
    'lateral offset loss, matched modes',
    'MFD 10.4 um, 1 um',
    0.160612,
    loss(10.4, 10.4, { offsetYUm: -1 }),
  ),
  recordedRow('gc-off-2.0', loss(10.4, 10.4, { offsetXUm: 2 })),
  recordedRow('gc-off-32', loss(3.2, 3.2, { offsetYUm: 0.5 })),
  recordedRow('gc-tol1dB-9.2-9.2', offsetFor(9.2, 9.2, 1)),
  recordedRow('gc-tol1dB-10.4-9.59', offsetFor(10.4, 9.59, 1)),
  recordedRow('gc-tol1dB-3.2-3.2', offsetFor(3.2, 3.2, 1)),
  recordedRow('gc-tol1dB-4.0-4.0', offsetFor(4, 4, 1)),
  recordedRow('gc-tol1dB-10.4-3.0', offsetFor(10.4, 3, 1)),
  recordedRow('gc-tol05-10.4', offsetFor(10.4, 10.4, 0.5)),
  recordedRow('gc-tilt-1', loss(10.4, 10.4, { tiltXRad: DEGREE })),
  recordedRow('gc-tilt-2', loss(10.4, 10.4, { tiltYRad: DEGREE, index: 1.468 })),
  recordedRow('gc-tilt-3', loss(3.2, 3.2, { tiltXRad: 2 * DEGREE })),
  recordedRow('gc-tilt-1dB', () => tiltForLoss(joint(10.4, 10.4), 'x', 1).upperRad / DEGREE, {
    input: 'mfd um 10.4, lambda um 1.55, n 1, excess dB 1',
  }),
  recordedRow('gc-gap-10-10.4-1', loss(10.4, 10.4, { gapUm: 10 })),
  worked(
    'gc-gap-50-10.4-1',
    'longitudinal gap loss, matched modes',
    'MFD 10.4 um, 50 um of air',
    0.820957,
    loss(10.4, 10.4, { gapUm: 50 }),
  ),
  recordedRow('gc-gap-50-10.4-1.46', loss(10.4, 10.4, { gapUm: 50, index: 1.46 })),
  recordedRow('gc-gap-5-3.2-1', loss(3.2, 3.2, { gapUm: 5 })),
  worked(
    'gc-gap-10-3.2-1',
    'longitudinal gap loss, matched modes',
    'MFD 3.2 um, 10 um of air',
    2.852398,
    loss(3.2, 3.2, { gapUm: 10 }),
  ),
  worked(
    'gc-gap-5-2.5-1',
    'longitudinal gap loss, matched modes',
    'MFD 2.5 um, 5 um of air',
    2.103629,
    loss(2.5, 2.5, { gapUm: 5 }),
  ),
  recordedRow('gc-gap-uneq', loss(8, 10, { gapUm: 50 })),
  recordedRow('gc-jd-1', () => jointEfficiency(joint(3, 3.2, receiverMoved(5, 0.4, 0.02)))),
  {
    id: 'gc-jd-2',
    quantity: 'the same with the receiver tilted inwards: the high-loss sign',
    source: JOYCE_DELOACH,
    input: 'w1 um 1.5, w2 um 1.6, gap um 5, offset um 0.4, tilt rad -0.02, lambda um 1.55',
    expected: 0.73400599,
    unit: '1',
    tolerance: 1e-8,
    ours: () => jointEfficiency(joint(3, 3.2, receiverMoved(5, 0.4, -0.02))),
  },
  {
    id: 'gc-jd-3',
    quantity: 'combined mismatch, offset, gap and tilt of two fibre modes',
    source: JOYCE_DELOACH,
    input: 'w1 um 5.2, w2 um 4.6, gap um 20, offset um 1, tilt rad 0.01, lambda um 1.55',
    expected: 0.90579526,
    unit: '1',
    tolerance: 1e-8,
    ours: () => jointEfficiency(joint(10.4, 9.2, receiverMoved(20, 1, 0.01))),
  },
  recordedRow('gc-ell-comb', loss(3.2, [4, 2.6], receiverMoved(3, 0.3, DEGREE, -0.2, 0.5 * DEGREE))),
  recordedRow('tb-keiser-lat', () => {
    const mfdUm = 2 * textbookRadiusUm(2.4, 4.5)
    return loss(mfdUm, mfdUm, { offsetXUm: 1 })()
  }),
  recordedRow('tb-senior', () => {
    const mfdUm = 2 * textbookRadiusUm(2.4, 4)
    const wavelengthUm = (2 * Math.PI * 4 * 0.1) / 2.4
    return loss(mfdUm, mfdUm, { wavelengthUm, index: 1.46, offsetXUm: 1, tiltXRad: DEGREE })()
  }),
  recordedRow('pub-tol-guo-z', offsetFor(9.2, 9.2, 1), {
    quantity:
      'measured lateral offset for 1 dB of an O-band edge coupler, against matched modes of the fibre (a comparison)',
    input: 'mfd fibre um 9.2 (assumed), facet matched (assumed)',
  }),
]
