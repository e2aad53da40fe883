// The public face of the optics core: every name another layer may use.

export {
  backFocalDistanceUm,
  ballLens,
  chainMatrices,
  effectiveFocalLengthUm,
  freeSpace,
  gradientIndexRod,
  type PlacedBeam,
  type RayMatrix,
  sphericalInterface,
  thickLens,
  thinLens,
  transformBeam,
} from './abcd'
export {
  apertureTransmission,
  coupledTruncation,
  ellipticalApertureTransmission,
  offsetApertureTransmission,
  shiftedApertureTransmission,
} from './aperture'
export { efficiencyFromLossDb, lossDb, NEPERS_PER_DB } from './decibel'
export { type Ray, throughDisplaced } from './displaced'
export {
  etalonRippleDb,
  etalonTransmission,
  type FacePairReflectance,
  fringePeriodInGapUm,
  fringePeriodInWavelengthUm,
} from './etalon'
export {
  type AngledFace,
  type FarFace,
  faceAngleForReturnLoss,
  faceReturnLoss,
  farFaceReturnLoss,
  mirrorOverlap,
  RETURN_LOSS_TRUST_DB,
  turnedReturnDb,
} from './faceReturnLoss'
export { centredGrid, type FieldGrid, sampleProfile } from './field/fieldGrid'
export {
  FIELD_ERROR,
  type FieldEfficiency,
  type FieldJoint,
  fieldEfficiency,
  fieldJointOn,
  type JointMemo,
} from './field/fieldJoint'
export { type FieldMoments, fieldMoments } from './field/fieldMoments'
export {
  ALIGNED_POSE,
  type FieldPair,
  type FieldPose,
  type Propagation,
  transverseShare,
} from './field/fieldPose'
export { gridProfile } from './field/gridProfile'
export { fieldMapGrid, firstGrid } from './field/jointGrid'
export { gaussianProfile, type ModeProfile } from './field/modeProfile'
export {
  type FieldJointSpec,
  fieldPairOf,
  type ModeAtFace,
  type ModeSpec,
  specKey,
} from './field/modeSpec'
export { type OffsetMap, offsetMap } from './field/offsetMap'
export { propagateField } from './field/propagateField'
export { type RadialIndex, type RadialMode, radialMode } from './field/radialMode'
export { fieldPower, requireField, type SampledField } from './field/sampledField'
export { type FacePair, type FresnelReflectance, fresnelLossDb, fresnelReflectance } from './fresnel'
export {
  type EtalonExtremes,
  type EtalonGap,
  type EtalonSeries,
  etalonExtremes,
  etalonFactor,
  etalonSeries,
  type FaceNormal,
} from './gapEtalon'
export {
  beamRadiusUm,
  divergenceHalfAngleRad,
  type GaussianBeam,
  MFD_PER_FWHM,
  PARAXIAL_LIMIT_RAD,
  rayleighRangeUm,
  wavefrontRadiusUm,
} from './gaussianBeam'
export { type GaussianJoint, JOINT_FIELDS, JOINT_RANGES, requireJoint } from './gaussianJoint'
export { peakIrradiance } from './irradiance'
export { jointEfficiency, jointEfficiencyAt } from './joint'
export { jointAmplitude } from './jointAmplitude'
export {
  type FacetMfds,
  facetMfdForLoss,
  type GapWindow,
  gapForLoss,
  type OffsetWindow,
  offsetForLoss,
  type TiltWindow,
  tiltForLoss,
} from './jointInverse'
export { jointLossDb } from './jointLoss'
export {
  type AxisSamples,
  axisSample,
  fillJointMap,
  MISALIGNMENT_AXES,
  type MisalignmentAxis,
} from './jointMap'
export {
  type LensedTip,
  lensedTipFocus,
  type TipFocus,
  tipAberrationUm,
  tipApertureRadiusUm,
  tipReturnOverlap,
} from './lensedTip'
export { fieldRadiusOneOverE, type Lp01Mode, lp01FarField, lp01Field } from './lp01Field'
export { matchingFactor } from './matchingFactor'
export {
  findMaterial,
  groupIndex,
  MATERIAL_ALIASES,
  MATERIALS,
  type Material,
  type MaterialName,
  refractiveIndex,
} from './materials'
export {
  FORM_AXES,
  type FormAxis,
  type FormJoint,
  type FormWindow,
  fillCurvatureDb,
  formLossDb,
  formWindow,
  type MisalignmentForm,
  misalignmentForm,
} from './misalignmentForm'
export { CROSS_SECTION_LIMITS, type CrossSection } from './modeSolver/crossSection'
export { type FibreModeKind, type FibreOverlap, fibreOverlap } from './modeSolver/fibreOverlap'
export { type Leakage, substrateLeakage } from './modeSolver/leakage'
export type { ModeOptions } from './modeSolver/modeProblem'
export { type ModeWidths, modeWidths } from './modeSolver/modeWidths'
export { coreShare, type SampledGrid, sampledMode } from './modeSolver/sampledMode'
export {
  MODE_DEFAULTS,
  modeSteps,
  NoModeError,
  type SolvedMode,
  solveMode,
} from './modeSolver/solveMode'
export { substrateShare } from './modeSolver/substrateShare'
export {
  type FilmStack,
  POLARISATIONS,
  type Polarisation,
  type StackResponse,
  stackReflectance,
  stackResponse,
  type ThinFilm,
} from './multilayer'
export { angleForExtinctionRad, extinctionRatioDb, seriesExtinction } from './polarisation'
export { type EndFace, type FacePointing, facePointing, type NoPointing } from './snell'
export {
  approximateStepIndex,
  STEP_INDEX_APPROXIMATIONS,
  type StepIndexApproximation,
  type StepIndexApproximationName,
} from './stepIndexApproximations'
export {
  corePowerFraction,
  isSingleMode,
  LP11_CUTOFF_V,
  normalisedFrequency,
  type StepIndexFibre,
  type StepIndexMode,
  solveLp01,
  stepIndexMode,
  V_RANGE,
} from './stepIndexMode'
export {
  type ExpansionEntry,
  SOLID_NAMES,
  SOLIDS,
  type SolidName,
} from './thermalExpansion'
