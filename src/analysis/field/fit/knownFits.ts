// Fits, and exact sums at a few points, by the text of what they depend on. A page must not wait for one and
// therefore calls `fitElsewhere`: it is then handed the requests, and the known results apply until `learnAnswer`. Callers that can wait call
// `computeFitsHere` (fitHere.ts), which a page does not load.

import { type AxisSamples, type FieldJointSpec, type GaussianJoint, specKey } from '../../../optics/index'
import type { JointRegion } from './jointAxes'
import type { JointFit } from './jointFit'
import { dataText, placesText } from './questionText'
import type { RelayFields, RelaySides } from './relayAxes'
import type { RelayDirections } from './relayDirections'

/** What is to be fitted: two fields across a gap, or two guides through the lenses of a relay. Plain data. */
type FitSubject = { readonly region: JointRegion } & (
  | {
      readonly kind: 'gap'
      readonly spec: FieldJointSpec
      readonly nominal: GaussianJoint
    }
  | { readonly kind: 'relay'; readonly sides: RelaySides; readonly directions: RelayDirections }
)

/** A fit, or null where no grid holds the joint everywhere in its region. */
export type KnownFit = readonly [key: string, fit: JointFit | null]

/** Real less Gaussian loss of a joint at a few sets of coordinates, without a fit, dB; NaN where no grid holds it. */
export interface PointSums {
  readonly kind: 'points'
  readonly spec: FieldJointSpec
  readonly nominal: GaussianJoint
  readonly points: readonly (readonly number[])[]
}

/** Real less Gaussian loss of a relay at a few sets of coordinates (RELAY_AXES), without a fit, dB. */
interface RelaySums {
  readonly kind: 'relay points'
  readonly sides: RelaySides
  readonly points: readonly (readonly number[])[]
}

/** Where offsets x, y and tilts x, y that are free settle by the fields, from a joint that holds none of their residuals. */
export interface AlignmentSearch {
  readonly kind: 'optimum'
  readonly spec: FieldJointSpec
  readonly nominal: GaussianJoint
  readonly free: readonly boolean[]
}

/** Alignment tolerances of a joint from its fields, as the numbers of windowNumbers.ts. */
interface WindowSearch {
  readonly kind: 'windows'
  readonly spec: FieldJointSpec
  readonly nominal: GaussianJoint
  readonly turn: TiltCentre
}

/** What tilts turn about: the emitter's end face, or the receiver's face, where offsets then stay. */
export type TiltCentre = 'emitter' | 'receiver'

/** Alignment tolerances of a relay through its real lenses, as the same numbers; of the image about the facet. */
interface RelayWindowSearch {
  readonly kind: 'relay windows'
  readonly lenses: RelayFields
  readonly nominal: GaussianJoint
}

/** Losses of a relay over lines and planes of displacements, dB, one after the other. */
interface RelayLosses {
  readonly kind: 'relay losses'
  readonly lenses: RelayFields
  /** As it is displaced: at the facet, or along the gap. */
  readonly nominal: GaussianJoint
  readonly over: readonly Displacements[]
}

/** Displacements over which losses are computed: along one axis, or over a plane of two, rows along the first. */
export type Displacements = readonly [AxisSamples] | readonly [x: AxisSamples, y: AxisSamples]

/** What is computed for joints by their fields. */
export type FieldSubject =
  | FitSubject
  | PointSums
  | RelaySums
  | AlignmentSearch
  | WindowSearch
  | RelayWindowSearch
  | RelayLosses
/** A request to whoever computes. */
export type FieldRequest = { readonly key: string } & FieldSubject
/** What a request is answered with. */
export type FieldAnswer = JointFit | readonly number[] | null

const MOST_KEPT = 60
const MOST_SUMS = 300
const fits = new Map<string, JointFit | null>()
const sums = new Map<string, readonly number[]>()
let ask: ((request: FieldRequest) => void) | null = null
let leftOpen = 0
let compute: ((subject: FieldSubject) => FieldAnswer) | null = null

/** Real less Gaussian loss of a joint at coordinates of its region, summed at each, dB. */
export type DirectSums = (
  spec: FieldJointSpec,
  nominal: GaussianJoint,
  region: JointRegion,
) => (at: ArrayLike<number>) => number
/** The same of a relay at coordinates of RELAY_AXES. */
type DirectRelaySums = (sides: RelaySides) => (at: ArrayLike<number>) => number
let sumDirectly: DirectSums | null = null
let sumRelays: DirectRelaySums | null = null

/** Sums at every pose; null where nothing is computed, which is on a page. */
export const directSums = (): DirectSums | null => sumDirectly
export const directRelaySums = (): DirectRelaySums | null => sumRelays

/** From now on nothing is computed here: what is wanted is handed to `wanted`. Returns the function that ends it. */
export function fitElsewhere(wanted: (request: FieldRequest) => void): () => void {
  ask = wanted
  return () => {
    if (ask === wanted) ask = null
  }
}

/** From now on what is wanted is computed here, unless `fitElsewhere` says otherwise. */
export function fitWith(
  solver: (subject: FieldSubject) => FieldAnswer,
  direct: DirectSums,
  directRelays: DirectRelaySums,
): void {
  compute = solver
  sumDirectly = direct
  sumRelays = directRelays
}

/** Does work that may wait, on a page too: what it wants is computed on the spot, if this place can. */
export function answeredHere<T>(work: () => T): T {
  if (compute === null) return work()
  const asked = ask
  ask = null
  try {
    return work()
  } finally {
    ask = asked
  }
}

/** How many questions have been handed on so far. Numbers during which it grew are provisional, the others final. */
export const questionsLeftOpen = (): number => leftOpen

function keep<T>(map: Map<string, T>, key: string, value: T, most: number): void {
  map.set(key, value)
  const [oldest] = map.keys()
  if (map.size > most && oldest !== undefined) map.delete(oldest)
}

const isSums = (answer: FieldAnswer): answer is readonly number[] => Array.isArray(answer)

/** An answer that was computed elsewhere. */
export function learnAnswer(key: string, answer: FieldAnswer): void {
  if (isSums(answer)) keep(sums, key, answer, MOST_SUMS)
  else keep(fits, key, answer, MOST_KEPT)
}

/** Fits that were computed elsewhere. */
export function learnFits(known: readonly KnownFit[]): void {
  for (const [key, fit] of known) learnAnswer(key, fit)
}

/** All fits that are known, for handing on to a worker. */
export function knownFits(): readonly KnownFit[] {
  return [...fits]
}

/** The Gaussians of a joint, which its spec need not hold, as text. */
function gaussiansText(nominal: GaussianJoint): string {
  return placesText([
    nominal.wavelengthUm,
    nominal.index,
    nominal.emitterMfdXUm,
    nominal.emitterMfdYUm,
    nominal.receiverMfdXUm,
    nominal.receiverMfdYUm,
    nominal.waistXUm,
  ])
}

/** The text of what a fit depends on. */
function keyOf(subject: FitSubject): string {
  const { from, to } = subject.region
  const region = placesText([...from, ...to])
  if (subject.kind === 'relay') return `${dataText(subject.sides)} ${subject.directions.join(' ')} ${region}`
  return `${specKey(subject.spec)} ${gaussiansText(subject.nominal)} ${region}`
}

/** The answer of whoever computes; 'pending' where that is elsewhere. */
function answerTo(key: string, subject: FieldSubject): FieldAnswer | 'pending' {
  if (ask !== null) {
    leftOpen++
    ask({ key, ...subject })
    return 'pending'
  }
  if (compute === null)
    throw new Error('no fits can be computed: neither computeFitsHere nor fitElsewhere was called')
  const answer = compute(subject)
  learnAnswer(key, answer)
  return answer
}

/** The fit of a joint; null where none is possible, 'pending' where it is being computed elsewhere. */
export function fitOf(subject: FitSubject): JointFit | null | 'pending' {
  const key = keyOf(subject)
  const found = fits.get(key)
  if (found !== undefined) return found
  const answer = answerTo(key, subject)
  return answer === 'pending' || !isSums(answer) ? answer : null
}

/** Numbers that are known or computed now; null where they cannot be, which is not asked again. */
function sumsAt(
  key: string,
  subject: Exclude<FieldSubject, FitSubject>,
): readonly number[] | null | 'pending' {
  if (fits.get(key) === null) return null
  const answer = sums.get(key) ?? answerTo(key, subject)
  return answer === 'pending' || (answer !== null && isSums(answer)) ? answer : null
}

/** Real less Gaussian loss at each of the points, dB; 'pending' where it is being computed elsewhere, none where it cannot be. */
export function sumsOf(subject: PointSums): readonly number[] | 'pending' {
  const points = subject.points.map(placesText).join(' ')
  const key = `points ${specKey(subject.spec)} ${gaussiansText(subject.nominal)} ${points}`
  const answer = sumsAt(key, subject)
  return answer ?? []
}

/** The same of a relay. */
export function relaySumsOf(subject: RelaySums): readonly number[] | 'pending' {
  const points = subject.points.map(placesText).join(' ')
  return sumsAt(`relay points ${dataText(subject.sides)} ${points}`, subject) ?? []
}

const poseText = ({ offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad }: GaussianJoint) =>
  placesText([offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad])

/** Windows as numbers; null where no grid holds the joint, 'pending' where they are being computed elsewhere. */
export function windowsOf(subject: WindowSearch): readonly number[] | null | 'pending' {
  const { spec, nominal, turn } = subject
  return sumsAt(`windows ${turn} ${specKey(spec)} ${gaussiansText(nominal)} ${poseText(nominal)}`, subject)
}

/** The same through the real lenses of a relay; null where they cannot be traced. */
export function relayWindowsOf(subject: RelayWindowSearch): readonly number[] | null | 'pending' {
  const { lenses, nominal } = subject
  return sumsAt(`relay windows ${dataText([lenses, nominal])}`, subject)
}

/** Losses through the real lenses of a relay, dB; null where they cannot be traced, 'pending' while they are computed elsewhere. */
export function relayLossesOf(subject: RelayLosses): readonly number[] | null | 'pending' {
  const { lenses, nominal, over } = subject
  return sumsAt(`relay losses ${dataText([lenses, nominal, over])}`, subject)
}

/** The last optimum of each pair of fields: while a gap is dragged it holds the place of the next one. */
const optima = new Map<string, readonly number[]>()
const NO_SHIFT = [0, 0, 0, 0]

/** How far the optimum of the fields lies from the joint, in offsets and tilts. */
interface KnownOptimum {
  readonly shift: readonly number[]
  /** Whether it is the last one known, while that of this joint is computed elsewhere. */
  readonly isProvisional: boolean
}

/** The optimum of the fields of a joint; where it cannot be found, the last one known of these fields, else no shift. */
export function optimumOf(subject: AlignmentSearch): KnownOptimum {
  const { spec, nominal, free } = subject
  const fields = `${specKey(spec)} ${free.join(' ')}`
  const key = `optimum ${fields} ${gaussiansText(nominal)} ${poseText(nominal)}`
  const answer = sumsAt(key, subject)
  if (answer === 'pending' || answer === null)
    return {
      shift: optima.get(fields) ?? NO_SHIFT,
      isProvisional: answer === 'pending',
    }
  keep(optima, fields, answer, MOST_KEPT)
  return { shift: answer, isProvisional: false }
}
