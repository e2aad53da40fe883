// The public face of the bench: every name another layer may use.

export { type CompactNumbers, packNumbers, unpackNumbers } from '../numerics/compactNumbers'
export { evaluateMeasurement } from './evaluateMeasurement'
export {
  type Cause,
  type DifferenceInput,
  type DifferenceResult,
  explainDifference,
  type SingleExplanation,
} from './explainDifference'
export { type FarFieldAxes, farFieldAxes, farFieldPair } from './farFieldAxes'
export { type FarFieldInput, type FarFieldResult, farFieldMfd } from './farFieldMfd'
export { readFieldImage } from './fieldImage'
export { type FieldReading, readFieldTable } from './fieldTable'
export type { Gaussianity } from './gaussianity'
export type { BenchImage } from './image'
export { fitImageGaussian, type ImageGaussian, type LineCut, lineCuts, type PixelMap } from './imageFit'
export { importedShape } from './importedShape'
export { KNIFE_EDGE_FACTORS, type KnifeEdgeClip, type KnifeEdgeWidth, knifeEdgeWidth } from './knifeEdge'
export {
  type Interval,
  type LoopbackInput,
  type LoopbackPoint,
  type LoopbackResult,
  loopbackLoss,
} from './loopback'
export { type MeasuredLossCurve, measuredLossCurve } from './measuredLossCurve'
export { type MeasurementOrigin, measuredLength } from './measuredQuantity'
export type {
  FarFieldOutcome,
  ImageOutcome,
  LoopbackOutcome,
  MeasurementResult,
  MfdValue,
  OffsetOutcome,
  RasterOutcome,
  RepeatedOutcome,
} from './measurementResult'
export { type FactName, type Facts, type NeededFact, neededFacts, newMeasurement } from './newMeasurement'
export { type OffsetScanInput, type OffsetScanResult, offsetScanMfd } from './offsetScanMfd'
export { attempted, type Outcome } from './outcome'
export { petermann1Over2 } from './petermannRatio'
export { type RasterScanInput, type RasterScanResult, rasterScanMfd } from './rasterScanMfd'
export { readImage } from './readImage'
export {
  type ColumnReport,
  type ImageReading,
  LIST_QUANTITIES,
  type ListReading,
  type Preview,
  type Reading,
  type TableReading,
} from './reading'
export { LARGEST_FILE_BYTES, readMeasurement } from './readMeasurement'
export { readScan } from './readScan'
export { type RepeatedResult, repeatedMeasurements } from './repeatedMeasurements'
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
} from './scan'
export { type ImageInput, type SecondMomentResult, secondMomentWidths } from './secondMomentWidths'
export { decodeText } from './textLines'
export { type ToleranceWindow, toleranceWindows, WINDOW_LEVELS_DB } from './toleranceWindow'
export { COVERAGE_FACTOR, type Contribution, type UncertaintyBudget } from './uncertaintyBudget'
