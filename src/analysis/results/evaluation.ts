// The evaluation of a candidate: plain data for screens, plots and sheets.

import type { Path } from '../../model/issue'
import type { Provenance } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Spread } from '../../model/quantity/spread'
import type { Unit } from '../../model/quantity/units'
import type { FieldJointSpec, GaussianJoint, StepIndexCore } from '../../optics/index'
import type { RelayFields } from '../field/fit/relayAxes'
import type { FieldLoss } from '../field/jointField'
import type { Contact } from './contact'
import type {
  BandFinding,
  ChainReflection,
  PathPort,
  PolarisationLoss,
  PortReturn,
  PowerFinding,
  Ripple,
} from './lightResults'

const LINE_KINDS = [
  'mode mismatch',
  'mode shape',
  'aberration',
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
  'drift',
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

/**
 * A mode at an end face, with the index of its guide. The MFD is that of the waist, which lies the waist distances
 * downstream of the face, in the medium; 0 for a plain face.
 */
export interface Port {
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly index: number
  readonly waistXUm: number
  readonly waistYUm: number
  /** Present where the end face is a lens. */
  readonly tip?: TipFace
  /** Present for a fibre: the step-index core whose mode its own end face reflects, its own or one assumed. */
  readonly core?: StepIndexCore & { readonly isAssumed: boolean }
}

/** A lensed end face: the mode that the fibre brings, and the radius where it is known. */
export interface TipFace {
  readonly radiusUm: number | null
  readonly modeMfdXUm: number
  readonly modeMfdYUm: number
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
  /** True of a relay: `joint` is that of its image with the far guide, seen from lens 2. */
  readonly isImage?: boolean
  /** Present of a relay whose lenses are traced. */
  readonly lenses?: RelayFields
  /** Present for two faces across a plain gap. */
  readonly directions?: JointDirections
  /** Where glass touches chip; `joint` has no smaller gap. Present where a chip edge or an outline is stated. */
  readonly contact?: Contact
  /** Present where a mode is more than a Gaussian. */
  readonly field?: JointFieldView
}

/** A joint by the fields of its modes. */
export interface JointFieldView {
  readonly spec: FieldJointSpec
  /** What the modes are taken to be. */
  readonly nearName: string
  readonly farName: string
  /** By fields and by Gaussians; or why only the Gaussian loss is known. */
  readonly loss: FieldLoss | { readonly refusal: string }
  /** What tolerances, yield and temperature move, with the error of the fit; absent where only Gaussians are moved. */
  readonly moves?: string
}

/** Slopes in the planes of x and y against the receiving guide's axis, rad: pointing, refraction and tilt together. */
interface JointDirections {
  /** The emitting guide's axis. */
  readonly nearAxisXRad: number
  readonly nearAxisYRad: number
  /** The axis of the receiver's own beam in the medium, from which the joint's offset and tilt are measured. */
  readonly farBeamXRad: number
  readonly farBeamYRad: number
}

/** A guide of the chain with the modes at its two ends. */
export interface GuideView {
  readonly elementId: string
  readonly entry: Port
  readonly exit: Port
}

/** A lens of a relay in place: z is measured from the fibre-side end face, the offset from the far guide's axis. */
export interface LensView {
  readonly name: string
  readonly frontZUm: number
  readonly thicknessUm: number
  readonly apertureDiameterUm: number
  /** Radii of the faces along the path, positive when bulging outwards; Infinity for flat. */
  readonly frontRadiusUm: number
  readonly backRadiusUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  /** Slopes of the lens axis, rad. */
  readonly tiltXRad: number
  readonly tiltYRad: number
  readonly beamRadiusXUm: number
  readonly beamRadiusYUm: number
  /** The same for light from the chip, of a relay that is centred. */
  readonly fromChipRadiusXUm: number
  readonly fromChipRadiusYUm: number
}

/** A relay, ready for the drawing and for words about it. */
export interface RelayView {
  readonly elementId: string
  readonly near: Port
  readonly far: Port
  /** Paths of the two lens entries in the project. */
  readonly lensPaths: readonly [Path, Path]
  readonly lenses: readonly [LensView, LensView]
  readonly device: {
    readonly name: string
    readonly startZUm: number
    readonly lengthUm: number
    readonly apertureDiameterUm: number
  } | null
  /** From end face to end face. */
  readonly lengthUm: number
  readonly stretchUm: number
  readonly collimatedMfdUm: number
  readonly collimatedRayleighUm: number
  /** 1/e^2 diameters of light from the chip at the near end face. */
  readonly fromChipAtNearUm: readonly [xUm: number, yUm: number]
  /** Size of the image over the size of the near mode, x. */
  readonly magnification: number
  /** Rays traced through the real lenses, by plane; empty where neither lens is known by its faces. */
  readonly rays: { readonly x: readonly RayLine[]; readonly y: readonly RayLine[] }
  /** 1/e^2 edges and the chief ray, in steps along z. */
  readonly path: readonly RelayStation[]
}

/** A ray as the corners of its path, um. */
export interface RayLine {
  readonly zUm: readonly number[]
  readonly heightUm: readonly number[]
}

export interface RelayStation {
  readonly zUm: number
  readonly radiusXUm: number
  readonly radiusYUm: number
  readonly chiefXUm: number
  readonly chiefYUm: number
}

/** A quantity of the chain, with its tolerance. Values are in the core's unit. */
export interface Variable {
  readonly path: Path
  readonly label: string
  readonly rule: RuleName
  readonly nominal: number
  /** Unit in which the quantity was entered. */
  readonly unit: Unit
  readonly spread: Spread
}

export interface CornerSetting {
  readonly label: string
  readonly path: Path
  readonly sign: -1 | 1
}

interface Contribution {
  readonly label: string
  readonly path: Path
  /** Loss added when this quantity alone goes to the worse end of its tolerance; dB, never negative. */
  readonly addedDb: number
}

export interface ValidityNote {
  readonly elementId: string
  readonly message: string
  /** True where the numbers may mislead, or the parts do not fit: to be read before the budget is trusted. */
  readonly caution?: boolean
}

export interface Evaluation {
  readonly candidateId: string
  readonly nominalDb: number
  readonly lines: readonly BudgetLine[]
  readonly worstCorner: {
    readonly lossDb: number
    readonly settings: readonly CornerSetting[]
    readonly exhaustive: boolean
    /** True while the fields of a joint are summed elsewhere for it, and a fit, or Gaussians, hold their place. */
    readonly isProvisional?: boolean
  }
  readonly rootSumSquare: { readonly lossDb: number; readonly contributions: readonly Contribution[] }
  /** What returns into the fibre, and into the waveguide of the chip. */
  readonly returnLoss: Readonly<Record<PathPort, PortReturn>>
  readonly reflections: readonly ChainReflection[]
  readonly ripples: readonly Ripple[]
  /** Nominal loss and return loss at their worst over the band; null where no band is requested. */
  readonly band: BandFinding | null
  readonly polarisation: PolarisationLoss
  /** Null where no power is stated. */
  readonly power: PowerFinding | null
  /** Loss at the worst temperature of the required range; null where no mount is described. */
  readonly temperature: {
    readonly assemblyC: number
    readonly worstC: number
    readonly worstDb: number
    /** The larger of both ends of the range. */
    readonly rootSumSquareDb: number
    readonly worstCornerDb: number
    /** Temperatures about assembly at which the nominal loss meets the limit; null where it does not at assembly. */
    readonly reachC: readonly [fromC: number, toC: number] | null
  } | null
  readonly guides: readonly GuideView[]
  readonly joints: readonly JointView[]
  readonly relays: readonly RelayView[]
  readonly validity: readonly ValidityNote[]
  /** Whether RSS, worst case and temperatures are provisional: real joints whose fit is not known yet move as Gaussians. */
  readonly awaitsFit: boolean
}
