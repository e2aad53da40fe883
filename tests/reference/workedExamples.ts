// The worked examples of docs/physics.md: each name in the text and the call that must return its number.

import { rollForLossRad } from '../../src/analysis/array/blockGeometry'
import { contactOf } from '../../src/analysis/clearance/contact'
import { obstaclesOf } from '../../src/analysis/clearance/obstacles'
import { revolved, UPRIGHT } from '../../src/analysis/clearance/solids'
import { grooveHeightUm, SILICON_WALL_RAD } from '../../src/analysis/clearance/vGroove'
import { evaluateCandidate, runYield, type YieldResult } from '../../src/analysis/index'
import { arrheniusFactor } from '../../src/analysis/lifetime/laws'
import { standardDeviationOf } from '../../src/analysis/tolerance/deviation'
import { type Distribution, quantityOf } from '../../src/model/quantity/quantity'
import { NO_SPREAD, type Spread } from '../../src/model/quantity/spread'
import { wilsonInterval } from '../../src/numerics/proportion'
import { brentRoot } from '../../src/numerics/roots'
import {
  ALIGNED_POSE,
  apertureTransmission,
  approximateStepIndex,
  backFocalDistanceUm,
  ballLens,
  beamRadiusUm,
  chainMatrices,
  collimatedField,
  coreAngleForReturnLoss,
  corePowerFraction,
  coupledTruncation,
  divergenceHalfAngleRad,
  etalonExtremes,
  etalonRippleDb,
  etalonSeries,
  extinctionRatioDb,
  type FieldJointSpec,
  FLAT_FACE,
  faceAngleForReturnLoss,
  facePointing,
  faceReturnLoss,
  facetMfdForLoss,
  farFaceReturnLoss,
  fieldEfficiency,
  fieldPairOf,
  fitTip,
  formWindow,
  freeSpace,
  fresnelLossDb,
  fresnelReflectance,
  fringePeriodInGapUm,
  type GaussianJoint,
  gapForLoss,
  groupIndex,
  jointEfficiency,
  lensedTipFocus,
  localModeLoss,
  lossDb,
  lp01FarField,
  type ModeAtFace,
  matchingFactor,
  misalignmentForm,
  modeWidths,
  offsetForLoss,
  peakIrradiance,
  radialMode,
  rayleighRangeUm,
  refractiveIndex,
  SOLIDS,
  seriesExtinction,
  solveLp01,
  solveMode,
  sphericalFace,
  stackReflectance,
  stepIndexMode,
  thickLens,
  thinLens,
  throughDisplaced,
  tiltForLoss,
  tipApertureRadiusUm,
  tipReturnOverlap,
  transformBeam,
  turnedModeDb,
  wavefrontQuality,
} from '../../src/optics'
import { isotropic, matchedProject } from '../analysis/yield/cases'
import { MATCHED } from '../optics/joint/jointCases'
import { rectangle, siliconWire } from '../optics/modeSolver/sections'

const DEGREE = Math.PI / 180

const AGAINST_3UM = { ...MATCHED, receiverMfdXUm: 3, receiverMfdYUm: 3 }
const BEAM = { waistRadiusUm: 5.2, waistDistanceUm: 0, wavelengthUm: 1.55, index: 1 }

const loss = (change: Partial<GaussianJoint>) => lossDb(jointEfficiency({ ...MATCHED, ...change }))

/** A 4.1 um core at V, 1310 nm. */
const fibre = (V: number) =>
  stepIndexMode({ coreRadiusUm: 4.1, na: (V * 1.31) / (2 * Math.PI * 4.1), wavelengthUm: 1.31 })

const farFieldAt = (V: number, level: number, lo: number, hi: number) =>
  brentRoot((alpha) => lp01FarField(solveLp01(V), alpha) - level, lo, hi).x

const AT_REST = { tip: null, stretchX: 1, stretchY: 1 }
const TWO_UM: ModeAtFace = {
  ...AT_REST,
  mode: { kind: 'gaussian', mfdXUm: 2, mfdYUm: 2, waistXUm: 0, waistYUm: 0 },
}

const LARGE_CORE = { coreRadiusUm: 4.1, na: 0.12 } as const
const SMALL_CORE = { coreRadiusUm: 2.2, na: 0.2 } as const
const EXACT_CORES = {
  emitter: { ...AT_REST, mode: { kind: 'step index', ...LARGE_CORE } },
  receiver: { ...AT_REST, mode: { kind: 'step index', ...SMALL_CORE } },
} as const

/** Loss of the exact modes of two cores minus that of their best-fit Gaussians, at an offset. */
function fieldDifferenceDb(offsetXUm: number): number {
  const spec = { ...EXACT_CORES, wavelengthUm: 1.55, index: 1, propagation: 'exact' } as const
  const pose = { ...ALIGNED_POSE, offsetXUm }
  const mfdUm = (core: typeof LARGE_CORE | typeof SMALL_CORE) =>
    stepIndexMode({ ...core, wavelengthUm: 1.55 }).bestGaussianMfdUm
  const [emitterUm, receiverUm] = [mfdUm(LARGE_CORE), mfdUm(SMALL_CORE)]
  return (
    lossDb(fieldEfficiency(fieldPairOf(spec), pose, 1e-7).efficiency) -
    loss({
      emitterMfdXUm: emitterUm,
      emitterMfdYUm: emitterUm,
      receiverMfdXUm: receiverUm,
      receiverMfdYUm: receiverUm,
      offsetXUm,
    })
  )
}

function fieldLossDb(change: Partial<FieldJointSpec>, gapUm = 0): number {
  const spec: FieldJointSpec = {
    emitter: TWO_UM,
    receiver: TWO_UM,
    wavelengthUm: 1.55,
    index: 1,
    propagation: 'exact',
    ...change,
  }
  return lossDb(fieldEfficiency(fieldPairOf(spec), { ...ALIGNED_POSE, gapUm }, 1e-7).efficiency)
}

function deviationDeg(mediumIndex: number): number {
  const pointing = facePointing({ guideIndex: 1.444, mediumIndex, faceAngleRad: 8 * DEGREE })
  if (pointing.totalInternalReflection) throw new Error('no light leaves')
  return pointing.exitDeviationRad / DEGREE
}

const angledReturnLoss = (mfdUm: number) =>
  faceReturnLoss({
    wavelengthUm: 1.55,
    guideIndex: 1.444,
    mediumIndex: 1,
    mfdXUm: mfdUm,
    mfdYUm: mfdUm,
    angleXRad: 8 * DEGREE,
    angleYRad: 0,
  })

/** Quarter waves at 1.55 um, along the path. */
const quarterWaves = (indices: readonly number[], index2: number) =>
  stackReflectance({
    wavelengthUm: 1.55,
    index1: 1,
    index2,
    films: indices.map((index) => ({ index, thicknessUm: 1.55 / 4 / index })),
  })

/** Ripple of two bare silica faces angled alike, with the diffraction of the mode. */
function silicaRippleDb(gapUm: number, leanRad = 0): number {
  const face = { re: -Math.sqrt(0.0330066), im: 0 }
  const normal = { xRad: leanRad, yRad: 0 }
  const joint = { ...MATCHED, gapUm }
  const series = etalonSeries({ joint, near: normal, far: normal, nearAmplitude: face, farAmplitude: face })
  if (series === null) throw new Error('no light couples')
  const { crest, trough } = etalonExtremes(series)
  return 10 * Math.log10(crest / trough)
}

/** Silica against air, standard core. */
const ANGLED_FIBRE = {
  wavelengthUm: 1.55,
  guideIndex: 1.444,
  core: { V: (2 * Math.PI * 4.1 * 0.12) / 1.55, radiusXUm: 4.1, radiusYUm: 4.1 },
}
const SILICA_REFLECTANCE = fresnelReflectance({ index1: 1.444, index2: 1 }).unpolarised

const faceAngleDeg = (mfdUm: number, returnLossDb: number) => {
  const { unpolarised } = fresnelReflectance({ index1: 1.444, index2: 1 })
  return (
    faceAngleForReturnLoss({ wavelengthUm: 1.55, guideIndex: 1.444, mfdUm }, unpolarised, returnLossDb) /
    DEGREE
  )
}

const imaged = () => transformBeam(chainMatrices([freeSpace(1200), thinLens(1000)]), BEAM)

const TIP = { modeRadiusUm: 5.2, tipRadiusUm: 10, fibreIndex: 1.45, mediumIndex: 1, wavelengthUm: 1.55 }

const beforeFacet = (mfdUm: number) => ({
  emitterMfdXUm: mfdUm,
  emitterMfdYUm: mfdUm,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 2.8,
})
const AXIAL = { heightUm: 0, slopeRad: 0 }
const plate = () =>
  thickLens({
    index: 1.5,
    frontRadiusUm: Number.POSITIVE_INFINITY,
    backRadiusUm: Number.POSITIVE_INFINITY,
    thicknessUm: 300,
  })

const aperture = () => apertureTransmission({ apertureRadiusUm: 1.5, beamRadiusUm: 1 })

const spread = (distribution: Distribution, halfWidth: number, coverage = 2): Spread => ({
  ...NO_SPREAD,
  distribution,
  halfWidth,
  coverage,
})

/** Isotropic offsets of 1 um sigma between matched modes of 10.4 um, against 0.5 dB; 2^18 Sobol points. */
let offsetRun: YieldResult | null = null
const offsets = () => {
  offsetRun ??= runYield(isotropic(10.4, 1, 0.5), 'matched', { samples: 2 ** 18, seed: 1 })
  return offsetRun
}
/** Silica plano-convex lens of 500 um, its flat face to the fibre. */
function silicaLensQuality() {
  const face = { index: 1.44402, thicknessUm: 500 }
  const flat = Number.POSITIVE_INFINITY
  const field = collimatedField(
    { wavelengthUm: 1.55, waistRadiusUm: 5.2, distanceUm: 859.76 },
    { ...face, mediumIndex: 1, first: FLAT_FACE, last: sphericalFace(-500) },
    thickLens({ ...face, frontRadiusUm: flat, backRadiusUm: -500 }),
  )
  if (field === null) throw new Error('no ray gets through')
  return wavefrontQuality(field, 1.55)
}
const REAL_TIP = { ...TIP, tipRadiusUm: 12 }

const alignedOffset = () => {
  const project = matchedProject(10.4, 1, {
    gap: quantityOf(40, 'um'),
    tiltX: quantityOf(0.03, 'rad'),
    aligned: ['offsetX'],
  })
  return evaluateCandidate(project, 'matched').joints[0]?.joint.offsetXUm ?? Number.NaN
}

function coneContact(): number {
  const cone = revolved('cone', [
    { zUm: 0, radiusUm: 8.5 },
    { zUm: -300, radiusUm: 8.5 + 300 * Math.tan(10 * DEGREE) },
  ])
  const edge = { recessUm: 15, ledgeDepthUm: 10, trench: null, topUm: 3, bottomUm: -700, lid: null }
  const straight = {
    axisXRad: 0,
    axisYRad: 0,
    rollRad: 0,
    beamXRad: 0,
    beamYRad: 0,
    offsetXUm: 0,
    offsetYUm: 0,
  }
  const contact = contactOf([cone], obstaclesOf({ ...edge, grooved: false }, UPRIGHT), straight)
  return contact?.gapUm ?? Number.NaN
}

export const WORKED_EXAMPLES: Readonly<Record<string, () => number>> = {
  'effective index of a 1.0 x 0.4 um nitride strip in oxide, quasi-TE at 1.55 um': () =>
    solveMode(rectangle(1, 0.4, 1.996, 1.444), { kind: 'TE', wavelengthUm: 1.55 }).effectiveIndex,
  'second-moment MFD x of a silicon tip of 0.18 x 0.22 um in oxide': () =>
    modeWidths(solveMode(siliconWire(0.18), { kind: 'TE', wavelengthUm: 1.55 })).secondMomentUm.x,
  'loss of half the light': () => lossDb(0.5),
  'Rayleigh range of 5.2 um at 1.55 um': () => rayleighRangeUm(BEAM),
  'half-angle of 5.2 um at 1.55 um': () => divergenceHalfAngleRad(BEAM),
  'radius of 5.2 um after 50 um': () => beamRadiusUm(BEAM, 50),
  'mismatch loss of MFD 10.4 and 3.0 um': () => loss(AGAINST_3UM),
  'loss of a round 5.2 um fibre at a 2.8 x 8.0 um facet': () =>
    loss({ emitterMfdXUm: 5.2, emitterMfdYUm: 5.2, receiverMfdXUm: 2.8, receiverMfdYUm: 8 }),
  'loss of a 1 um offset at MFD 10.4 um': () => loss({ offsetXUm: 1 }),
  'loss of a 1 degree tilt at MFD 10.4 um in air': () => loss({ tiltXRad: DEGREE }),
  'loss of a 50 um air gap at MFD 10.4 um': () => loss({ gapUm: 50 }),
  'loss of two 4.0 x 2.6 um modes rotated by 30 degrees': () =>
    loss({
      emitterMfdXUm: 4,
      emitterMfdYUm: 2.6,
      receiverMfdXUm: 4,
      receiverMfdYUm: 2.6,
      rollRad: 30 * DEGREE,
    }),
  'curvature in offset at MFD 10.4 um': () => misalignmentForm(MATCHED).curvatureDb[0] ?? Number.NaN,
  'best offset for a tilt of 0.03 rad over 40 um': () => {
    const tilted = { ...MATCHED, tiltXRad: 0.03, gapUm: 40 }
    return formWindow(misalignmentForm(tilted), 'offsetXUm', tilted, 1).best
  },
  'offset for 1 dB at MFD 10.4 um on both sides': () => offsetForLoss(MATCHED, 'x', 1).upperUm,
  'offset for 1 dB at MFD 10.4 and 3.0 um': () => offsetForLoss(AGAINST_3UM, 'x', 1).upperUm,
  'tilt for 1 dB at MFD 10.4 um in air': () => tiltForLoss(MATCHED, 'x', 1).upperRad / DEGREE,
  'gap for 1 dB at MFD 10.4 um in air': () => gapForLoss(MATCHED, 1).upperUm ?? Number.NaN,
  'smaller facet mode for 1 dB at MFD 9.2 um': () => facetMfdForLoss(9.2, 1).smallerUm,
  'U at V = 2.2': () => solveLp01(2.2).U,
  'W at V = 2.2': () => solveLp01(2.2).W,
  'b at V = 2.2': () => fibre(2.2).b,
  'core power fraction at V = 2.0': () => corePowerFraction(solveLp01(2)),
  'Petermann II MFD of a 4.1 um core at V = 2.2': () => fibre(2.2).petermann2MfdUm,
  'best-fit Gaussian MFD of a 4.1 um core at V = 2.2': () => fibre(2.2).bestGaussianMfdUm,
  'Petermann I over II at V = 1.6': () => fibre(1.6).petermann1MfdUm / fibre(1.6).petermann2MfdUm,
  'loss of the mode against its best-fit Gaussian at V = 2.0': () => lossDb(fibre(2).bestGaussianOverlap),
  'loss of the exact modes of a 4.1 um core, NA 0.12, and a 2.2 um core, NA 0.20, at 1.55 um': () =>
    fieldLossDb(EXACT_CORES),
  'difference of the same modes from their best-fit Gaussians, aligned': () => fieldDifferenceDb(0),
  'difference of the same modes from their best-fit Gaussians, 8 um lateral offset': () =>
    fieldDifferenceDb(8),
  'loss over 10 um of air at MFD 2.0 um on both sides, 1.55 um, paraxial': () =>
    fieldLossDb({ propagation: 'paraxial' }, 10),
  'loss over 10 um of air at MFD 2.0 um on both sides, 1.55 um, exact': () => fieldLossDb({}, 10),
  'effective index of a 4.1 um core of 1.44898 in 1.444 at 1.55 um': () =>
    radialMode({ radiiUm: [0, 4.1, 4.1, 16], indices: [1.44898, 1.44898, 1.444, 1.444] }, 1.55)
      .effectiveIndex,
  'effective index of the same with a trench of 1.439 from 8 to 12 um': () =>
    radialMode(
      {
        radiiUm: [0, 4.1, 4.1, 8, 8, 12, 12, 16],
        indices: [1.44898, 1.44898, 1.444, 1.444, 1.439, 1.439, 1.444, 1.444],
      },
      1.55,
    ).effectiveIndex,
  'Marcuse at V = 2.0': () => approximateStepIndex('marcuse', 2),
  'Hussey and Martinez at V = 2.0': () => approximateStepIndex('husseyMartinez', 2),
  'Rudolph and Neumann at V = 2.0': () => approximateStepIndex('rudolphNeumann', 2),
  'k a sin(theta) at 1/e^2 intensity, V = 2.0': () => farFieldAt(2, Math.exp(-1), 0, 4),
  'first null of the far field, V = 2.0': () => farFieldAt(2, 0, 3, 5),
  'index of fused silica at 1.55 um': () => refractiveIndex('fused silica', 1.55),
  'index of silicon nitride at 1.6537 um': () => refractiveIndex('silicon nitride', 1.6537),
  'index of silicon at 1.55 um': () => refractiveIndex('silicon', 1.55),
  'group index of fused silica at 1.31 um': () => groupIndex('fused silica', 1.31),
  'loss of one fused silica face against air at 1.55 um': () =>
    fresnelLossDb({ index1: refractiveIndex('fused silica', 1.55), index2: 1 }),
  'loss of one silicon nitride face against air, n = 1.99628': () =>
    fresnelLossDb({ index1: 1.99628, index2: 1 }),
  'deviation of 8 degrees, n = 1.444, into air': () => deviationDeg(1),
  'deviation of 8 degrees, n = 1.444, into n = 1.50': () => deviationDeg(1.5),
  'return loss of 8 degrees at MFD 10.4 um, n = 1.444 against air': () => angledReturnLoss(10.4),
  'return loss of 8 degrees at MFD 3.2 um, n = 1.444 against air': () => angledReturnLoss(3.2),
  'return loss of a nitride face (n = 1.99628) 20 um off a fibre of MFD 10.4 um, n = 1.444': () =>
    farFaceReturnLoss({
      wavelengthUm: 1.55,
      guideIndex: 1.444,
      mediumIndex: 1,
      farIndex: 1.99628,
      mfdXUm: 10.4,
      mfdYUm: 10.4,
      gapUm: 20,
      incidenceXRad: 0,
      incidenceYRad: 0,
    }),
  'ripple of two faces of R = 0.0330066': () =>
    etalonRippleDb({ reflectance1: 0.0330066, reflectance2: 0.0330066 }),
  'ripple period in an air gap at 1.55 um': () => fringePeriodInGapUm(1.55, 1),
  'reflectance of a quarter wave of 1.38 on 1.5': () => quarterWaves([1.38], 1.5),
  'reflectance of quarter waves of 1.38 and 1.70 on 1.52': () => quarterWaves([1.38, 1.7], 1.52),
  'ripple of two bare silica faces across 20 um, MFD 10.4 um': () => silicaRippleDb(20),
  'ripple of the same across 100 um': () => silicaRippleDb(100),
  'ripple of the same across 50 um, faces parallel at 0.203 rad': () => silicaRippleDb(50, 0.203),
  'face angle for 60 dB at MFD 10.4 um, n = 1.444 against air': () => faceAngleDeg(10.4, 60),
  'face angle for 40 dB at MFD 3.2 um, n = 1.444 against air': () => faceAngleDeg(3.2, 40),
  'return loss of 8 degrees, core 8.2 um, NA 0.12, n = 1.444 against air': () =>
    turnedModeDb({ ...ANGLED_FIBRE, angleXRad: 8 * DEGREE, angleYRad: 0 }) -
    10 * Math.log10(SILICA_REFLECTANCE),
  'face angle for 60 dB or more, core 8.2 um, NA 0.12, n = 1.444': () =>
    coreAngleForReturnLoss(ANGLED_FIBRE, SILICA_REFLECTANCE, 60) / DEGREE,
  // 1 uW/um^2 is 0.1 kW/cm^2.
  'peak irradiance of 1 mW at MFD 10.4 um': () => peakIrradiance(1000, 10.4, 10.4) / 10,
  'image waist radius behind the lens': () => imaged().waistRadiusUm,
  'image waist distance behind the lens': () => imaged().waistDistanceUm,
  'back focal distance of the sapphire ball': () =>
    backFocalDistanceUm(ballLens({ index: 1.746182, diameterUm: 300 })),
  'Strehl ratio of the silica lens at best focus': () => silicaLensQuality().strehl,
  'wavefront error of the silica lens': () => silicaLensQuality().rmsUm,
  'spot diameter of the real lensed fibre': () => 2 * fitTip(REAL_TIP).spotRadiusUm,
  'working distance of the real lensed fibre': () => fitTip(REAL_TIP).workingDistanceUm,
  'loss of the real lensed fibre against its best-fit Gaussian': () => lossDb(fitTip(REAL_TIP).overlap),
  'working distance of the lensed fibre': () => lensedTipFocus(TIP).workingDistanceUm,
  'spot diameter of the lensed fibre': () => 2 * lensedTipFocus(TIP).spotRadiusUm,
  'radius of total reflection at the tip': () => tipApertureRadiusUm(TIP),
  "share of the tip's own reflection that couples back": () => tipReturnOverlap(TIP),
  'best round spot before 3.4 x 2.8 um': () => matchingFactor(beforeFacet(1)),
  'best magnification from 10 um': () => matchingFactor(beforeFacet(10)),
  'slope behind the displaced lens': () => 1000 * throughDisplaced(thinLens(500), 0, 3, 0, AXIAL).slopeRad,
  'shift of a ray by the tilted plate': () => throughDisplaced(plate(), 300, 0, 0.02, AXIAL).heightUm,
  'power through an aperture of 1.5 beam radii': aperture,
  'coupled power after an aperture of 1.5 beam radii': () => coupledTruncation(aperture()),
  'extinction ratio at 2 degrees': () => extinctionRatioDb(2 * DEGREE),
  'extinction ratio of 1 and 2 degrees in series, mean': () =>
    seriesExtinction([DEGREE, 2 * DEGREE]).incoherentDb,
  'extinction ratio of 1 and 2 degrees in series, worst phase': () =>
    seriesExtinction([DEGREE, 2 * DEGREE]).worstDb,
  'standard deviation of +-0.5 um, uniform': () => standardDeviationOf(spread('uniform', 0.5)),
  'standard deviation of +-0.5 um, triangular': () => standardDeviationOf(spread('triangular', 0.5)),
  'standard deviation of +-0.5 um, normal, coverage 2': () => standardDeviationOf(spread('normal', 0.5)),
  'standard deviation of +-0.5 um, truncated normal, coverage 2': () =>
    standardDeviationOf(spread('truncated normal', 0.5)),
  'yield at 0.5 dB of matched 10.4 um modes, offsets of 1 um sigma': () => offsets().yield,
  '95th percentile of the same': () => offsets().p95Db,
  'upper end of the Wilson interval of 950 passes in 1000 at 95 %': () =>
    wilsonInterval(950, 1000, 0.95).high,
  'total effect index of one of two equal normal offsets': () => offsets().ranking[0]?.total ?? Number.NaN,
  'aligned offset for a tilt of 0.03 rad over 40 um': alignedOffset,
  'roll for 1 dB at the edge of 12 channels, 127 um, MFD 10.4 um': () =>
    (rollForLossRad({ ...misalignmentForm(MATCHED), slopeDb: new Float64Array(4) }, 12, 127, 1) ??
      Number.NaN) / DEGREE,
  'core height of a 125 um fibre in a 150 um groove in (100) silicon': () =>
    grooveHeightUm(62.5, 150, SILICON_WALL_RAD),
  'gap at which a cone of 10 degrees half-angle and 17 um tip diameter meets a ledge 10 um deep, recess 15 um':
    coneContact,
  'Arrhenius factor of 0.5 eV, test at 125 degC, service at 25 degC': () =>
    arrheniusFactor({ activationEnergyEv: 0.5, testC: 125, serviceC: 25 }),
  'loss of a taper whose end modes differ by an angle of 0.4 rad, 73 um long, index step 0.01 at 1.55 um':
    () =>
      lossDb(
        1 -
          localModeLoss(
            {
              widthUm: [1, 2],
              effectiveIndex: [1.46, 1.46],
              claddingIndex: [1.45, 1.45],
              overlapWithNext: [Math.cos(0.4)],
              overlapOfEnds: Math.cos(0.4),
            },
            { wavelengthUm: 1.55, lengthUm: 73, exponent: 1 },
          ),
      ),
  'growth of 10 mm of silicon over 60 K': () => SOLIDS.silicon.perKelvin * 10_000 * 60,
}
