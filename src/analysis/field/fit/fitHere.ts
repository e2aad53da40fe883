// Fits of real joints computed on the spot: in workers, commands and tests.

import { InputError } from '../../../numerics/inputError'
import { finish } from '../../../numerics/steps'
import { fitJointSteps } from './fitJoint'
import { fitRelaySteps } from './fitRelay'
import type { JointFit } from './jointFit'
import { type FitSubject, fitWith } from './knownFits'

/** Steps of one fit; null as in KnownFit. */
export function* fitSteps(subject: FitSubject): Generator<number, JointFit | null, void> {
  try {
    return subject.kind === 'gap'
      ? yield* fitJointSteps(subject.spec, subject.nominal, subject.region)
      : yield* fitRelaySteps(subject.sides, subject.region)
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

/** From now on every evaluation computes the fits that it wants, each once. */
export function computeFitsHere(): void {
  fitWith((subject) => finish(fitSteps(subject)))
}
