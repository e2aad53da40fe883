// Fits of real joints, and exact sums at points, computed on the spot: in workers, commands and tests.

import { InputError } from '../../../numerics/inputError'
import { finish } from '../../../numerics/steps'
import { fieldWindowSteps } from '../fieldTolerance'
import { exactDifference } from './exactDifference'
import { fitJointSteps } from './fitJoint'
import { fitRelaySteps } from './fitRelay'
import { FIT_ERROR_DB } from './jointFit'
import { type FieldAnswer, type FieldSubject, fitWith } from './knownFits'
import { pointSums } from './pointSums'
import { realOptimum } from './realOptimum'
import { windowNumbers } from './windowNumbers'

/** Grids of direct sums agree to this, dB: half of what a fit may be off. */
const DIRECT_DB = FIT_ERROR_DB / 2

/** Steps of one answer; null as in KnownFit. */
export function* answerSteps(subject: FieldSubject): Generator<number, FieldAnswer, void> {
  try {
    switch (subject.kind) {
      case 'gap':
        return yield* fitJointSteps(subject.spec, subject.nominal, subject.region)
      case 'relay':
        return yield* fitRelaySteps(subject.sides, subject.region)
      case 'points':
        return yield* pointSums(subject)
      case 'windows':
        return windowNumbers(yield* fieldWindowSteps(subject.spec, subject.nominal, subject.turn))
      case 'optimum':
        return yield* realOptimum(subject)
    }
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

/** From now on every evaluation computes the fits and sums that it wants, each once. */
export function computeFitsHere(): void {
  fitWith(
    (subject) => finish(answerSteps(subject)),
    (spec, nominal, region) => {
      const { of } = exactDifference(spec, nominal, region, DIRECT_DB)
      return (at) => of(at).differenceDb
    },
  )
}
