// Fits by the text of what they depend on. A page may not wait for one and says so with `fitElsewhere`: it is then told what is
// wanted, and the Gaussian difference at the nominal values holds until `learnFits`. Whoever can wait says `computeFitsHere`
// (fitHere.ts), which a page does not load.

import { type FieldJointSpec, type GaussianJoint, specKey } from '../../../optics/index'
import type { JointRegion } from './jointAxes'
import type { JointFit } from './jointFit'
import type { RelaySides } from './relayAxes'

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
let compute: ((subject: FitSubject) => JointFit | null) | null = null

/** From now on `fitOf` never computes here: it hands what is wanted to `wanted`. Returns the function that ends it. */
export function fitElsewhere(wanted: (request: FitRequest) => void): () => void {
  ask = wanted
  return () => {
    if (ask === wanted) ask = null
  }
}

/** From now on `fitOf` computes here, unless `fitElsewhere` says otherwise. */
export function fitWith(solver: (subject: FitSubject) => JointFit | null): void {
  compute = solver
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
  if (compute === null)
    throw new Error('nobody computes fits: neither computeFitsHere nor fitElsewhere was called')
  const fit = compute(subject)
  learnFits([[key, fit]])
  return fit
}
