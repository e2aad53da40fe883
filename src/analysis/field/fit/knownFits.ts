// Fits by the text of what they depend on. Whoever asks synchronously gets them computed on the spot, once; a page that may not
// wait says so with `fitElsewhere`: it is then told what is wanted, and the Gaussian difference at the nominal values stands
// until `learnFits`.

import { InputError } from '../../../numerics/inputError'
import { finish } from '../../../numerics/steps'
import { type FieldJointSpec, type GaussianJoint, specKey } from '../../../optics/index'
import type { JointFit } from './fitDifference'
import { fitJointSteps } from './fitJoint'
import { fitRelaySteps } from './fitRelay'
import type { JointRegion } from './jointAxes'
import type { RelaySides } from './relayDifference'

/** What is to be fitted: two fields across a gap, or two guides through the lenses of a relay. Plain data. */
export type FitSubject = { readonly region: JointRegion } & (
  | { readonly kind: 'gap'; readonly spec: FieldJointSpec; readonly nominal: GaussianJoint }
  | { readonly kind: 'relay'; readonly sides: RelaySides }
)

export type FitRequest = { readonly key: string } & FitSubject

/** A fit, or null where no grid holds the joint everywhere in its region. */
export type KnownFit = readonly [key: string, fit: JointFit | null]

const MOST_KEPT = 60
const known = new Map<string, JointFit | null>()
let ask: ((request: FitRequest) => void) | null = null

/** From now on `fitOf` never computes here: it hands what is wanted to `wanted`; null ends that. */
export function fitElsewhere(wanted: ((request: FitRequest) => void) | null): void {
  ask = wanted
}

/** Fits that were computed elsewhere. */
export function learnFits(fits: readonly KnownFit[]): void {
  for (const [key, fit] of fits) {
    known.set(key, fit)
    const [oldest] = known.keys()
    if (known.size > MOST_KEPT && oldest !== undefined) known.delete(oldest)
  }
}

/** All fits that are known, for handing on to a worker. */
export function knownFits(): readonly KnownFit[] {
  return [...known]
}

/** Steps of one request; null as in KnownFit. */
export function* fitSteps(request: FitSubject): Generator<number, JointFit | null, void> {
  try {
    return request.kind === 'gap'
      ? yield* fitJointSteps(request.spec, request.nominal, request.region)
      : yield* fitRelaySteps(request.sides, request.region)
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

/** The text of what a fit depends on. */
function keyOf(subject: FitSubject): string {
  const { from, to } = subject.region
  const region = `${from.join(' ')} ${to.join(' ')}`
  if (subject.kind === 'relay') return `${JSON.stringify(subject.sides)} ${region}`
  const { spec, nominal } = subject
  const gaussians = [
    nominal.wavelengthUm,
    nominal.index,
    nominal.emitterMfdXUm,
    nominal.emitterMfdYUm,
    nominal.receiverMfdXUm,
    nominal.receiverMfdYUm,
    nominal.waistXUm,
  ]
  return `${specKey(spec)} ${gaussians.join(' ')} ${region}`
}

/** The fit of a joint; null where none is possible, 'pending' where it is being computed elsewhere. */
export function fitOf(subject: FitSubject): JointFit | null | 'pending' {
  const key = keyOf(subject)
  const found = known.get(key)
  if (found !== undefined) return found
  const request = { key, ...subject }
  if (ask !== null) {
    ask(request)
    return 'pending'
  }
  const fit = finish(fitSteps(request))
  learnFits([[key, fit]])
  return fit
}
