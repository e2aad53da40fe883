// The public interface of the optics core: every name that another layer may use.

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
} from './beam/abcd'
export {
  apertureTransmission,
  coupledTruncation,
  ellipticalApertureTransmission,
  offsetApertureTransmission,
  shiftedApertureTransmission,
} from './beam/aperture'
export {
  atMostNoLight,
  efficiencyFromLossDb,
  lossDb,
  NEPERS_PER_DB,
  NO_LIGHT_DB,
  NO_LIGHT_RATIO,
} from './beam/decibel'
export {
  beamRadiusUm,
  divergenceHalfAngleRad,
  type GaussianBeam,
  MFD_PER_FWHM,
  PARAXIAL_LIMIT_RAD,
  rayleighRangeUm,
  wavefrontRadiusUm,
} from './beam/gaussianBeam'
export { peakIrradiance } from './beam/irradiance'
export {
  etalonRippleDb,
  etalonTransmission,
  type FacePairReflectance,
  fringePeriodInGapUm,
  fringePeriodInWavelengthUm,
} from './faces/etalon'
export {
  type AngledFace,
  type FarFace,
  faceAngleForReturnLoss,
  faceReturnLoss,
  farFaceReturnLoss,
  mirrorOverlap,
  RETURN_LOSS_TRUST_DB,
  turnedReturnDb,
} from './faces/faceReturnLoss'
export { type FacePair, type FresnelReflectance, fresnelLossDb, fresnelReflectance } from './faces/fresnel'
export {
  type EtalonExtremes,
  type EtalonGap,
  type EtalonSeries,
  etalonExtremes,
  etalonFactor,
  etalonSeries,
  type FaceNormal,
} from './faces/gapEtalon'
export {
  type FilmStack,
  PLANE_POLARISATIONS,
  type PlanePolarisation,
  type StackResponse,
  stackReflectance,
  stackResponse,
  type ThinFilm,
} from './faces/multilayer'
export { angleForExtinctionRad, extinctionRatioDb, seriesExtinction } from './faces/polarisation'
export { type EndFace, type FacePointing, facePointing, type NoPointing } from './faces/snell'
export {
  ASSUMED_V,
  coreAngleForReturnLoss,
  equivalentCore,
  leastTurnedModeDb,
  type StepIndexCore,
  turnedModeDb,
  USUAL_V,
} from './faces/turnedMode'
export { fieldRadiusOneOverE, type Lp01Mode, lp01FarField, lp01Field } from './fibre/lp01Field'
export {
  approximateStepIndex,
  STEP_INDEX_APPROXIMATIONS,
  type StepIndexApproximation,
  type StepIndexApproximationName,
} from './fibre/stepIndexApproximations'
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
} from './fibre/stepIndexMode'
export { bandLimitedJoint, type PoseEfficiency } from './field/bandLimitedJoint'
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
} from './field/fieldPose'
export type { GradedField } from './field/gradedField'
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
export { type Ray, throughDisplaced } from './joint/displaced'
export { type GaussianJoint, JOINT_FIELDS, JOINT_RANGES, requireJoint } from './joint/gaussianJoint'
export { jointEfficiency, jointEfficiencyAt, jointEfficiencyOf } from './joint/joint'
export { jointAmplitude } from './joint/jointAmplitude'
export { fillEfficiencies } from './joint/jointColumns'
export {
  type FacetMfds,
  facetMfdForLoss,
  type GapWindow,
  gapForLoss,
  type OffsetWindow,
  offsetForLoss,
  type TiltWindow,
  tiltForLoss,
} from './joint/jointInverse'
export { jointLossDb } from './joint/jointLoss'
export { fillLossMap } from './joint/jointLossMap'
export {
  type AxisSamples,
  axisSample,
  fillJointMap,
  MISALIGNMENT_AXES,
  type MisalignmentAxis,
} from './joint/jointMap'
export { matchingFactor } from './joint/matchingFactor'
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
} from './joint/misalignmentForm'
export {
  collimatedField,
  coupledBy,
  coupledGaussians,
  type LensMode,
  paraxialField,
  type RingField,
  type RingSpectrum,
  ringSpectrum,
  waveNodes,
  wavesOver,
} from './lens/collimatedField'
export {
  type LensedTip,
  lensedTipFocus,
  type TipFocus,
  tipAberrationUm,
  tipApertureRadiusUm,
  tipReturnOverlap,
} from './lens/lensedTip'
export { FLAT_FACE, type LensFace, type LensShape, sphericalFace } from './lens/lensShape'
export type { LensSide } from './lens/lensSide'
export { type ChiefRay, launchFrom, type PlacedLens, throughPlaced } from './lens/placedLens'
export { type Pupil, ringPupil, squarePupil } from './lens/pupil'
export { type BeamMove, coupledSkew, moveBetween } from './lens/skewCoupling'
export {
  fillSkewField,
  newSkewField,
  type SkewField,
  skewField,
} from './lens/skewField'
export { fitTip, type TipFit, type TipPose, tipEfficiency } from './lens/tipCoupling'
export { type RadialAmplitude, type TipSpectrum, tipSpectrum } from './lens/tipSpectrum'
export { type TracedRay, traceRay } from './lens/traceRay'
export { type WavefrontQuality, wavefrontQuality } from './lens/wavefront'
export {
  findMaterial,
  groupIndex,
  MATERIAL_ALIASES,
  MATERIALS,
  type Material,
  type MaterialName,
  refractiveIndex,
} from './materials/materials'
export {
  type ExpansionEntry,
  SOLID_NAMES,
  SOLIDS,
  type SolidName,
} from './materials/thermalExpansion'
export { diffusedCore } from './modeSolver/cores/gradedCore'
export {
  type IndexMap,
  mapExtents,
  mappedCore,
  profiledCore,
  profileReachUm,
  profileShare,
  type StepProfile,
} from './modeSolver/cores/tabledCore'
export { couplingField, gradedField } from './modeSolver/coupling/couplingField'
export { type FibreModeKind, type FibreOverlap, fibreOverlap } from './modeSolver/coupling/fibreOverlap'
export { modeOverlap } from './modeSolver/coupling/modeOverlap'
export {
  type LocalModes,
  localModeLoss,
  type Taper,
  taperLoss,
} from './modeSolver/coupling/taperTransmission'
export {
  type Core,
  CROSS_SECTION_LIMITS,
  type CrossSection,
  claddingEndUm,
  type GradedCore,
  stackHeights,
  stackIndexAt,
} from './modeSolver/crossSection'
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
