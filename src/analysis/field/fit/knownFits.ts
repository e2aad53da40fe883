// Fits by the text of what they depend on. Whoever asks synchronously gets them computed on the spot, once; a page that may not
// wait says so with `fitElsewhere`: it is then told what is wanted, and the Gaussian difference at the nominal values stands
// until `learnFits`.

import { InputError } from '../../../numerics/inputError'
import { finish } from '../../../numerics/steps'
import { type FieldJointSpec, type GaussianJoint, specKey } from '../../../optics/index'
import { fitJointSteps, type JointFit } from './fitJoint'
import type { JointRegion } from './jointAxes'

export interface FitRequest {
  readonly key: string
  readonly spec: FieldJointSpec
  readonly nominal: GaussianJoint
  readonly region: JointRegion
}

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
export function* fitSteps({ spec, nominal, region }: FitRequest): Generator<number, JointFit | null, void> {
  try {
    return yield* fitJointSteps(spec, nominal, region)
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

/** The fit of a joint; null where none is possible, 'pending' where it is being computed elsewhere. */
export function fitOf(
  spec: FieldJointSpec,
  nominal: GaussianJoint,
  region: JointRegion,
): JointFit | null | 'pending' {
  const { wavelengthUm, index, emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm, waistXUm } =
    nominal
  const gaussians = [
    wavelengthUm,
    index,
    emitterMfdXUm,
    emitterMfdYUm,
    receiverMfdXUm,
    receiverMfdYUm,
    waistXUm,
  ]
  const key = `${specKey(spec)} ${gaussians.join(' ')} ${region.from.join(' ')} ${region.to.join(' ')}`
  const found = known.get(key)
  if (found !== undefined) return found
  const request = { key, spec, nominal, region }
  if (ask !== null) {
    ask(request)
    return 'pending'
  }
  const fit = finish(fitSteps(request))
  learnFits([[key, fit]])
  return fit
}
