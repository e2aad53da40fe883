// One joint of two modes as budget lines: each misalignment alone, and what they add together.

import { ALIGNED_POSE, atMostNoLight, type GaussianJoint, jointLossDb } from '../../../optics/index'
import type { LineKind } from '../../results/evaluation'
import type { LineModel } from '../vector/elementModels'
import type { Reader, Values } from '../vector/valueReaders'

/** Waist on waist, axis on axis: what is left is the difference of the modes. */
export const ALIGNED = {
  ...ALIGNED_POSE,
  waistXUm: 0,
  waistYUm: 0,
} as const

type Part = Extract<LineKind, 'mode mismatch' | 'gap' | 'lateral offset' | 'tilt' | 'roll'>

/** The joint with only one kind of misalignment left in it. */
function only(joint: GaussianJoint, part: Part): GaussianJoint {
  const aligned = { ...joint, ...ALIGNED }
  const { offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad, waistXUm, waistYUm } = joint
  switch (part) {
    case 'mode mismatch':
      return aligned
    case 'gap':
      return { ...aligned, gapUm, waistXUm, waistYUm }
    case 'lateral offset':
      return { ...aligned, offsetXUm, offsetYUm }
    case 'tilt':
      return { ...aligned, tiltXRad, tiltYRad }
    case 'roll':
      return { ...aligned, rollRad }
  }
}

const PARTS: readonly (readonly [Part, string])[] = [
  ['mode mismatch', 'Mode mismatch'],
  ['gap', 'Gap'],
  ['lateral offset', 'Lateral offset'],
  ['tilt', 'Tilt'],
  ['roll', 'Roll'],
]

const cappedLossDb = (joint: GaussianJoint): number => atMostNoLight(jointLossDb(joint))

/** The lines of a joint; they add up to `lossDb`, which NO_LIGHT_DB caps. `gapLabel` names what keeps the waists apart. */
export function jointLines(
  elementId: string,
  joint: (v: Values) => GaussianJoint,
  gapLabel = 'Gap',
): { readonly lines: readonly LineModel[]; readonly lossDb: Reader } {
  const alignedLoss: Reader = (v) => cappedLossDb(only(joint(v), 'mode mismatch'))
  const partLoss = (part: Part): Reader =>
    part === 'mode mismatch' ? alignedLoss : (v) => cappedLossDb(only(joint(v), part)) - alignedLoss(v)
  const fullLoss: Reader = (v) => cappedLossDb(joint(v))
  const line = (kind: LineKind, label: string, reader: Reader): LineModel => ({
    id: `${elementId}/${kind}`,
    label,
    kind,
    provenance: 'computed',
    elementId,
    lossDb: reader,
  })
  const parts = PARTS.map(([part, label]) => line(part, part === 'gap' ? gapLabel : label, partLoss(part)))
  const combined: Reader = (v) => fullLoss(v) - parts.reduce((sum, part) => sum + part.lossDb(v), 0)
  return { lines: [...parts, line('combined', 'Combined misalignment', combined)], lossDb: fullLoss }
}
