// The result of a measurement, as plain data small enough to draw and to send between threads.

import type { ExposureUnit } from '../../model/words/lifetime'
import type { Outcome } from '../../numerics/outcome'
import type { FarFieldAxes } from '../farField/farFieldAxes'
import type { FarFieldResult } from '../farField/farFieldMfd'
import type { Gaussianity } from '../fit/gaussianity'
import type { UncertaintyBudget } from '../fit/uncertaintyBudget'
import type { LoopbackResult } from '../loopback/loopback'
import type { RepeatedResult } from '../loopback/repeatedMeasurements'
import type { LotSummary } from '../lots/lotSummary'
import type { ImageGaussian, LineCut, PixelMap } from '../nearField/imageFit'
import type { KnifeEdgeWidth } from '../nearField/knifeEdge'
import type { SecondMomentResult } from '../nearField/secondMomentWidths'
import type { OffsetScanResult } from '../offset/offsetScanMfd'
import type { RasterScanResult } from '../offset/rasterScanMfd'

/** A diameter that can become an entry of a part. */
export interface MfdValue {
  readonly id: string
  /** "Petermann II", "P along x", "major axis, Gaussian fit". */
  readonly label: string
  /** The direction it was measured along, where the file says so. */
  readonly axis: 'x' | 'y' | null
  readonly valueUm: number
  /** Expanded, k = 2. */
  readonly expandedUm: number
  /** What was done, for the note of an entry. */
  readonly method: string
  readonly budget: UncertaintyBudget
}

/** A signal that could not be evaluated keeps its place, with the reason. */
interface SignalOutcome<T> {
  readonly label: string
  readonly outcome: Outcome<T>
}

export interface LengthGroup {
  readonly lengthCm: number
  readonly readings: RepeatedResult
}

interface LoopbackRow {
  readonly lengthCm: number
  readonly lossDb: number
  readonly residualDb: number
  /** True for an outlier at its length. */
  readonly flagged: boolean
}

export interface FarFieldOutcome {
  readonly method: 'far-field'
  readonly signals: readonly SignalOutcome<FarFieldResult>[]
  /** Where the file holds exactly two scans that could be evaluated. */
  readonly axes: Omit<FarFieldAxes, 'x' | 'y'> | null
}

export interface OffsetOutcome {
  readonly method: 'offset'
  readonly signals: readonly SignalOutcome<OffsetScanResult>[]
}

export interface RasterOutcome {
  readonly method: 'raster'
  readonly result: Omit<RasterScanResult, 'residual'>
  readonly gaussianity: Gaussianity
  readonly points: {
    readonly xUm: Float64Array
    readonly yUm: Float64Array
    readonly power: Float64Array
    readonly residual: Float64Array
  }
}

export interface ImageOutcome {
  readonly method: 'image'
  readonly moments: SecondMomentResult
  readonly fit: ImageGaussian
  readonly gaussianity: Gaussianity
  readonly cuts: readonly [LineCut, LineCut]
  readonly knifeEdges: readonly { readonly axis: 'major' | 'minor'; readonly width: KnifeEdgeWidth }[]
  readonly view: PixelMap
}

export interface LoopbackOutcome {
  readonly method: 'loopback'
  readonly result: LoopbackResult
  readonly rows: readonly LoopbackRow[]
  readonly groups: readonly LengthGroup[]
}

export interface RepeatedOutcome {
  readonly method: 'repeated'
  readonly unit: 'dB' | 'um'
  readonly result: RepeatedResult
  readonly readings: readonly number[]
}

export interface LotOutcome {
  readonly method: 'lot'
  readonly lot: LotSummary
}

export interface StressOutcome {
  readonly method: 'stress'
  readonly stress: {
    readonly unit: ExposureUnit
    /** Last exposure, in the unit. */
    readonly last: number
    readonly readings: number
    readonly assemblies: number
    /** Channels of assemblies. */
    readonly series: number
    /** From the first reading of each channel to its last, dB; null where no channel was measured twice. */
    readonly meanChangeDb: number | null
    readonly greatestChangeDb: number | null
  }
}

type MethodOutcome =
  | FarFieldOutcome
  | OffsetOutcome
  | RasterOutcome
  | ImageOutcome
  | LoopbackOutcome
  | RepeatedOutcome
  | LotOutcome
  | StressOutcome

export type MeasurementResult = MethodOutcome & { readonly mfds: readonly MfdValue[] }
