// Which mode the return loss of an angled end face assumes, where that is an assumption.

import { fixedText } from '../../../numerics/numberText'
import { leastTurnedModeDb, turnedModeDb, USUAL_V } from '../../../optics/index'
import type { Port, ValidityNote } from '../../results/evaluation'

interface AngledSide {
  readonly name: string
  readonly port: Port
  readonly faceAngleRad: number
}

type Guide = Pick<Parameters<typeof turnedModeDb>[0], 'wavelengthUm' | 'guideIndex' | 'core'>

/** One note for every angled face whose exact mode is not known; square faces need none. */
export function angledFaceNotes(
  elementId: string,
  wavelengthUm: number,
  sides: readonly AngledSide[],
): readonly ValidityNote[] {
  return sides.flatMap(({ name, port: { core, index }, faceAngleRad }) => {
    if (faceAngleRad === 0 || core?.isAssumed === false) return []
    const lower = core === undefined ? 0 : lowerBy({ wavelengthUm, guideIndex: index, core, faceAngleRad })
    const message =
      core === undefined
        ? `Return loss of the angled ${name}: computed with a Gaussian mode. The tails of a real mode lower it, by several dB beyond about 30 dB.`
        : `Return loss of the angled ${name}: computed for a step-index core of V = ${fixedText(core.V, 1)} with the same mode-field diameter, because the core is not given; with V from ${fixedText(USUAL_V.least, 1)} to ${fixedText(USUAL_V.most, 1)} it is up to ${fixedText(lower, 1)} dB lower. Enter core diameter and numerical aperture for the mode of this fibre.`
    return [{ elementId, message }]
  })
}

/** By how much another core with the same mode-field diameter may lower the return loss, dB. */
function lowerBy({ faceAngleRad, ...guide }: { readonly faceAngleRad: number } & Guide): number {
  const face = { ...guide, angleXRad: faceAngleRad, angleYRad: 0 }
  return turnedModeDb(face) - leastTurnedModeDb(face)
}
