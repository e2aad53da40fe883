// What each kind of chain element compiles to.

import type { Issue, Path } from '../../../model/issue'
import type { Quantity } from '../../../model/quantity/quantity'
import type { Project } from '../../../model/schema/project'
import type { RelayMember } from '../../../model/words/candidate'
import type { EtalonSeries, matchingFactor, StepIndexCore } from '../../../optics/index'
import type { RelayFields } from '../../field/fit/relayAxes'
import type { PortShape } from '../../field/portShape'
import type { Contact } from '../../results/contact'
import type { BudgetLine, JointView, RelayView, ValidityNote } from '../../results/evaluation'
import type { LensesInLight } from '../../results/lensPictures'
import type { FaceReflection } from '../../results/lightResults'
import type { GapJoint } from './gapJoint'
import type { Reader, ReaderTable, Values } from './valueReaders'

/** Movement of the near side of a join against the far side, um; z opens the gap. */
export interface Movement {
  readonly x: Reader
  readonly y: Reader
  readonly z: Reader
}

/** A move of the near side of a relay, or of one of its lenses; `axialUm` is along the light. */
export interface AlignmentMove {
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly axialUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
}

/**
 * How a joint by fields is moved: by its fit, which beyond its region keeps the value of the nearest pose; summed anew at poses beyond
 * the region, for tolerances wider than entered; or also summed anew at every pose where its fit misses its target, which is slow.
 */
export type Sums = 'fitted' | 'beyond' | 'direct'

export interface ChainContext {
  readonly project: Project
  /** The project's wavelength: at this one guides are turned and aligned. */
  readonly wavelengthUm: number
  /** The wavelength of the vector, um. */
  readonly wavelength: Reader
  /** 0 for the budget's light (the facet's TE mode, faces unpolarised), 1 for TE, 2 for TM. */
  readonly polarisation: Reader
  /** Wavelengths that will be asked for, um; both the project's own unless a spectrum is computed. */
  readonly bandUm: readonly [from: number, to: number]
  readonly readers: ReaderTable
  /** 'solved' finds every fibre mode exactly; 'tabled' reads it from an interpolant, for many samples. */
  readonly modes: 'solved' | 'tabled'
  readonly sums: Sums
  /** How much wider than entered the tolerances may be sampled; at least 1. */
  readonly widening: number
  /** Whether a gap aligns itself; an array aligns all its channels at once instead. */
  readonly alignsEachChannel: boolean
  /** Temperature above that of assembly, K. */
  readonly temperatureRise: Reader
  /** Places of temperature rise, wavelength shift and polarisation: 0 when the station aligns. */
  readonly operating: readonly number[]
  /**
   * How far a part in a row at a join is from the row behind the join, on the present channel, um. Null
   * without an array.
   */
  readonly rowShift: ((elementId: string, pitch: Quantity, label: string, path: Path) => Reader) | null
  /** What moves a join after its alignment, by the join's id; empty where nothing does. */
  readonly movements: (elementId: string) => readonly Movement[]
  readonly report: (issue: Issue) => void
}

export interface PortReaders {
  readonly mfdXUm: Reader
  readonly mfdYUm: Reader
  readonly index: Reader
  /** Distance from the end face to the waist, downstream; in the medium of the join that follows. */
  readonly waistXUm: Reader
  readonly waistYUm: Reader
  readonly tip?: TipReaders
  /** The core of a fibre, whose exact mode its own end face reflects. */
  readonly core?: CoreReader
  /** What the mode is, where it is more than a Gaussian; at the nominal values. */
  readonly shape?: PortShape
}

/** A step-index core: the fibre's own, or one assumed from its mode-field diameters. */
export interface CoreReader {
  readonly isAssumed: boolean
  readonly at: (v: Values) => StepIndexCore
}

/** A lensed end face; the radius is null where the data sheet gives the spot only. */
interface TipReaders {
  readonly radiusUm: Reader | null
  readonly modeMfdXUm: Reader
  readonly modeMfdYUm: Reader
  /** What its real field loses on the way out, and against the Gaussian it resembles most, dB; absent for a stated spot. */
  readonly real?: { readonly clippingDb: Reader; readonly aberrationDb: Reader }
}

/** A line whose loss can be asked for any values. */
export type LineModel = Omit<BudgetLine, 'lossDb'> & { readonly lossDb: Reader }

/** A guide: the modes at its two ends and what it loses inside. */
export interface GuideModel {
  readonly entry: PortReaders
  readonly exit: PortReaders
  readonly lines: readonly LineModel[]
  readonly notes: readonly ValidityNote[]
}

/**
 * The loss of a join as a form of a move u from the pose that it has, dB: loss there + 2 slope' u + u' K u; offset x, y, then tilt
 * x, y, um and rad.
 */
export interface PoseForm {
  /** K, 4 x 4, row-major. */
  readonly curvatureDb: Float64Array
  /** Half the gradient. */
  readonly slopeDb: Float64Array
}

/** A join between two guides. `lossDb` is the sum of the lines, computed the short way. */
export interface JoinModel {
  readonly lines: readonly LineModel[]
  readonly lossDb: Reader
  /** What it is computed from, for many vectors at once; absent where they are worked out one by one. */
  readonly gapJoint?: GapJoint
  /** The same with a slope beyond NO_LIGHT_DB, for a search that starts where no light arrives; absent where it has none. */
  readonly searchDb?: Reader
  /**
   * What the exact joint loses at each of the values beyond `lossDb`, which a fit moves, dB; 'pending' while it is summed elsewhere.
   * Absent where `lossDb` is exact.
   */
  readonly beyondFitDb?: ((at: readonly Values[]) => readonly number[] | 'pending') | undefined
  /** How far that fit is off where it misses its target, dB. */
  readonly fitMissesDb?: number | undefined
  readonly view: ((values: Values) => JointView) | null
  readonly relay?: (values: Values) => RelayView
  /** Absent where no lens is known by its faces. */
  readonly lensesInLight?: (values: Values) => LensesInLight
  /** The real lenses at the nominal values; null where no ray gets through, absent where no lens is known by its faces. */
  readonly relayFields?: () => RelayFields | null
  /** Where glass touches chip in the nominal pose: no gap is smaller. Absent where neither chip edge nor outline is stated. */
  readonly contact?: Contact
  /** Gap less that of contact in the pose of the values, um; present where `contact` of a gap is. */
  readonly clearanceUm?: Reader
  /** Whether tolerances and conditions move it provisionally, until a fit of it is known; known once its lines have been evaluated. */
  readonly awaitsFit?: () => boolean
  /** True where rays through real lenses move the best focus away from the paraxial one. */
  readonly aberrated?: boolean
  /** Whether guides and lenses of a relay lie on one axis: it is its own mirror image then, and best where it is. */
  readonly isInLine?: (v: Values) => boolean
  /**
   * Of the near side, or of a lens of a relay. Overwritten by the next call; absent where no pose is known. What apertures clip
   * is ignored.
   */
  readonly poseForm?: (values: Values, member?: RelayMember) => PoseForm
  /** How far a station moves a member of a relay that it aligns in these axes from where the values put it. */
  readonly alignmentMove?: (values: Values, member: RelayMember, axes: ReadonlySet<string>) => AlignmentMove
  /**
   * Where a relay's lens 1 collimates a point, the distances of the end face for which the beam behind it is parallel (null
   * where it never is), the focal lengths of both lenses, um, and the modes that it joins.
   */
  readonly relayFoci?: (v: Values) => {
    readonly frontUm: number
    readonly parallelUm: readonly [from: number, to: number] | null
    readonly focal1Um: number
    readonly focal2Um: number
    readonly modes: Parameters<typeof matchingFactor>[0]
  }
  /** What light loses on a way there and back beyond twice `lossDb`: an isolator is passed against its direction once. */
  readonly isolationDb?: Reader
  /** What the faces send back, seen from the guides on either side. */
  readonly reflections: (values: Values) => readonly FaceReflection[]
  /** Round trips between the two faces of a gap; null or absent where there are none. */
  readonly etalon?: (values: Values) => EtalonSeries | null
  readonly notes: (values: Values) => readonly ValidityNote[]
}
