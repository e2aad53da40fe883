// What the joint across a gap is computed from, for many vectors at once.

import type { Movement, PortReaders } from './elementModels'
import type { Reader, Values } from './valueReaders'

/** An end face whose record is overwritten by every `fill`. */
export interface FilledFace {
  readonly face: { readonly transmission: number; readonly slopeRad: number; readonly widthScale: number }
  readonly fill: (v: Values, guideIndex: number, mediumIndex: number, angleRad: number) => void
}

/** What a gap that no station aligns reads. */
export interface GapParts {
  readonly near: PortReaders
  readonly far: PortReaders
  readonly medium: Reader
  readonly gap: Reader
  readonly offsetX: Reader
  readonly offsetY: Reader
  readonly tiltX: Reader
  readonly tiltY: Reader
  readonly roll: Reader
  readonly nearAngle: Reader
  readonly farAngle: Reader
  readonly nearFace: FilledFace
  readonly farFace: FilledFace
  /** Plane of the face angles. */
  readonly plane: 'x' | 'y'
  readonly pointingRad: number
  readonly movements: readonly Movement[]
  /** Where glass touches chip. */
  readonly leastGapUm: number
}

/** The same with what the loss of its joint needs. */
export interface GapJoint extends GapParts {
  readonly wavelength: Reader
  /** Loss of one vector, dB. */
  readonly lossDb: Reader
}
