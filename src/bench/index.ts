// The public face of the bench: every name another layer may use.

export { type CompactNumbers, packNumbers, unpackNumbers } from './compactNumbers'
export {
  type Cause,
  type DifferenceInput,
  type DifferenceResult,
  explainDifference,
  type SingleExplanation,
} from './explainDifference'
export { type FarFieldAxes, farFieldAxes } from './farFieldAxes'
export { type FarFieldInput, type FarFieldResult, farFieldMfd } from './farFieldMfd'
export type { Gaussianity } from './gaussianity'
export type { BenchImage } from './image'
export { fitImageGaussian, type ImageGaussian, type LineCut, lineCuts, type PixelMap } from './imageFit'
export { KNIFE_EDGE_FACTORS, type KnifeEdgeClip, type KnifeEdgeWidth, knifeEdgeWidth } from './knifeEdge'
export {
  type Interval,
  type LoopbackInput,
  type LoopbackPoint,
  type LoopbackResult,
  loopbackLoss,
} from './loopback'
export { type MeasurementOrigin, measuredLength } from './measuredQuantity'
export { type OffsetScanInput, type OffsetScanResult, offsetScanMfd } from './offsetScanMfd'
export { petermann1Over2 } from './petermannRatio'
export { type RasterScanInput, type RasterScanResult, rasterScanMfd } from './rasterScanMfd'
export { readImage } from './readImage'
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
