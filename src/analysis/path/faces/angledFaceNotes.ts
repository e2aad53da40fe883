// Which mode the return loss of an angled end face assumes, where that is an assumption.

import { fixedText } from '../../../numerics/numberText'
import type { Port, ValidityNote } from '../../results/evaluation'

interface AngledSide {
  readonly name: string
  readonly port: Port
  readonly faceAngleRad: number
}

/** One note for every angled face whose exact mode is not known; square faces need none. */
export function angledFaceNotes(elementId: string, sides: readonly AngledSide[]): readonly ValidityNote[] {
  return sides.flatMap(({ name, port: { core }, faceAngleRad }) => {
    if (faceAngleRad === 0 || core?.isAssumed === false) return []
    const message =
      core === undefined
        ? `Return loss of the angled ${name}: computed with a Gaussian mode. The tails of a real mode lower it, by several dB beyond about 30 dB.`
        : `Return loss of the angled ${name}: computed for a step-index core of V = ${fixedText(core.V, 1)} with the same mode-field diameter, because the core is not given. Enter core diameter and numerical aperture for the mode of this fibre.`
    return [{ elementId, message }]
  })
}
