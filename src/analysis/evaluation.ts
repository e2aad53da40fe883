// What an evaluated candidate says: plain data that screens, plots and sheets read.

import type { ElementKind } from '../model/candidate'
import type { Path } from '../model/issue'
import type { Provenance } from '../model/quantity'
import type { RuleName } from '../model/quantityRules'
import type { Spread } from '../model/spread'
import type { Unit } from '../model/units'
import type { GaussianJoint } from '../optics/index'

export const LINE_KINDS = [
  'mode mismatch',
  'gap',
  'lateral offset',
  'tilt',
  'roll',
  'combined',
  'fresnel',
  'splice',
  'taper',
  'connector',
  'propagation',
  'device',
  'clipping',
  'absorption',
  'user line',
] as const
export type LineKind = (typeof LINE_KINDS)[number]

/** One line of the budget. Losses are positive dB; `combined` may be negative, and so may the roll of unlike ellipses. */
export interface BudgetLine {
  readonly id: string
  readonly label: string
  readonly kind: LineKind
  readonly lossDb: number
  readonly provenance: Provenance
  /** The chain element or user line it comes from. */
  readonly elementId: string
  readonly note?: string
}

/** A mode at an end face: the beam just inside the medium, with the index of its guide. */
export interface Port {
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly index: number
}

/** One free-space joint of the chain, ready for curves, maps and the drawing. */
export interface JointView {
  readonly elementId: string
  /** Path of the gap element in the project. */
  readonly path: Path
  readonly joint: GaussianJoint
  readonly near: Port
  readonly far: Port
  /** Angle the emitting guide must be turned by against the receiving one, by Snell; rad. */
  readonly pointingXRad: number
  readonly pointingYRad: number
}

/** A quantity of the chain, with its tolerance. Values are in the core's unit. */
export interface Variable {
  readonly path: Path
  readonly label: string
  readonly rule: RuleName
  readonly nominal: number
  /** Unit that the person gave the quantity. */
  readonly unit: Unit
  readonly spread: Spread
}

export interface CornerSetting {
  readonly label: string
  readonly path: Path
  readonly sign: -1 | 1
}

export interface Contribution {
  readonly label: string
  readonly path: Path
  /** Loss added when this quantity alone goes to the worse end of its tolerance; dB, never negative. */
  readonly addedDb: number
}

export interface ValidityNote {
  readonly elementId: string
  readonly message: string
}

export interface Evaluation {
  readonly candidateId: string
  readonly elementKinds: readonly ElementKind[]
  readonly nominalDb: number
  readonly lines: readonly BudgetLine[]
  readonly worstCorner: {
    readonly lossDb: number
    readonly settings: readonly CornerSetting[]
    readonly exhaustive: boolean
  }
  readonly rootSumSquare: { readonly lossDb: number; readonly contributions: readonly Contribution[] }
  /** Seen from the fibre, incoherent sum of all faces; Infinity never occurs: null where nothing reflects. */
  readonly returnLossDb: number | null
  /** Loss at the worst temperature of the required range; null where no mount is described. */
  readonly temperature: {
    readonly assemblyC: number
    readonly worstC: number
    readonly worstDb: number
  } | null
  readonly joints: readonly JointView[]
  readonly validity: readonly ValidityNote[]
}
