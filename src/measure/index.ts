// The public interface of the measurements: every name that another layer may use.

export { type CompactNumbers, packNumbers, unpackNumbers } from '../numerics/compactNumbers'
export { attempted, type Outcome } from '../numerics/outcome'
export { type FarFieldAxes, farFieldAxes, farFieldPair } from './farField/farFieldAxes'
export { type FarFieldInput, type FarFieldResult, farFieldMfd } from './farField/farFieldMfd'
export { petermann1Over2 } from './farField/petermannRatio'
export type { Gaussianity } from './fit/gaussianity'
export { COVERAGE_FACTOR, type Contribution, type UncertaintyBudget } from './fit/uncertaintyBudget'
export type { BenchImage } from './images/image'
export { readImage } from './images/readImage'
export { readFieldImage } from './intake/fieldImage'
export { type FieldReading, readFieldTable } from './intake/fieldTable'
export { importedShape } from './intake/importedShape'
export { type IndexMapReading, readIndexMap } from './intake/indexMap'
export {
  type FactName,
  type Facts,
  type NeededFact,
  neededFacts,
  newMeasurement,
} from './intake/newMeasurement'
export {
  ANGLE_UNITS,
  type AngleUnit,
  answersForKind,
  factForKind,
  isTableKind,
  measurementAs,
  needsAngleUnit,
  possibleKinds,
  TABLE_KINDS,
  type TableKind,
} from './intake/otherKind'
export {
  type ColumnReport,
  type ImageReading,
  LIST_QUANTITIES,
  type ListReading,
  type LotReading,
  type Preview,
  type Reading,
  type TableReading,
} from './intake/reading'
export { readMeasurement } from './intake/readMeasurement'
export {
  type Cause,
  type DifferenceInput,
  type DifferenceResult,
  explainDifference,
  type SingleExplanation,
} from './loopback/explainDifference'
export {
  type EstimatedValue,
  type LoopbackInput,
  type LoopbackPoint,
  type LoopbackResult,
  loopbackLoss,
} from './loopback/loopback'
export { type MeasurementOrigin, measuredLength } from './loopback/measuredQuantity'
export { type RepeatedResult, repeatedMeasurements } from './loopback/repeatedMeasurements'
export type { LotSummary } from './lots/lotSummary'
export { type NextLot, nextLot } from './lots/nextLot'
export {
  fitImageGaussian,
  type ImageGaussian,
  type LineCut,
  lineCuts,
  type PixelMap,
} from './nearField/imageFit'
export {
  KNIFE_EDGE_FACTORS,
  type KnifeEdgeClip,
  type KnifeEdgeWidth,
  knifeEdgeWidth,
} from './nearField/knifeEdge'
export { type ImageInput, type SecondMomentResult, secondMomentWidths } from './nearField/secondMomentWidths'
export { type MeasuredLossCurve, measuredLossCurve } from './offset/measuredLossCurve'
export { type OffsetScanInput, type OffsetScanResult, offsetScanMfd } from './offset/offsetScanMfd'
export { type RasterScanInput, type RasterScanResult, rasterScanMfd } from './offset/rasterScanMfd'
export { scannedWindows, type ToleranceWindow, WINDOW_LEVELS_DB } from './offset/toleranceWindow'
export { LOT_ROLES } from './reading/lotColumns'
export { readScan } from './reading/readScan'
export type {
  ColumnRole,
  CoreUnit,
  Doubt,
  Finding,
  RefusedLine,
  Scan,
  ScanAnswers,
  ScanColumn,
  ScanKind,
  ScanMetadata,
} from './reading/scan'
export { decodeText } from './reading/textLines'
export { evaluateMeasurement } from './results/evaluateMeasurement'
export type {
  FarFieldOutcome,
  ImageOutcome,
  LoopbackOutcome,
  LotOutcome,
  MeasurementResult,
  MfdValue,
  OffsetOutcome,
  RasterOutcome,
  RepeatedOutcome,
  StressOutcome,
} from './results/measurementResult'
