// A joint of two modes as plain data: what can be stored, sent to a worker, and told apart by its text.

import type { FieldPair, Propagation } from './fieldPose'
import { gridProfile } from './gridProfile'
import { gaussianProfile, type ModeProfile, refractedProfile, stretchedProfile } from './modeProfile'
import { radialMode } from './radialMode'
import { radialProfile } from './radialProfile'
import type { SampledField } from './sampledField'
import { stepIndexProfile } from './stepIndexProfile'

export type ModeSpec =
  | {
      readonly kind: 'gaussian'
      readonly mfdXUm: number
      readonly mfdYUm: number
      readonly waistXUm: number
      readonly waistYUm: number
    }
  | { readonly kind: 'step index'; readonly coreRadiusUm: number; readonly na: number }
  | {
      readonly kind: 'index profile'
      readonly radiiUm: readonly number[]
      readonly indices: readonly number[]
    }
  | {
      readonly kind: 'sampled'
      readonly field: SampledField
      /** Tells this field from any other. */
      readonly key: string
      /** Share of the mode's power that the samples hold, 1 unless told; the rest, polarised across, couples to nothing. */
      readonly powerShare?: number
    }

/** A mode at an end face: a ground tip may refract it, a leaning face stretch it. */
export interface ModeAtFace {
  readonly mode: ModeSpec
  readonly tip: { readonly radiusUm: number; readonly guideIndex: number } | null
  readonly stretchX: number
  readonly stretchY: number
}

export interface FieldJointSpec {
  readonly emitter: ModeAtFace
  readonly receiver: ModeAtFace
  readonly wavelengthUm: number
  /** Of the medium between the faces. */
  readonly index: number
  readonly propagation: Propagation
}

function profileOf(mode: ModeSpec, wavelengthUm: number, index: number): ModeProfile {
  switch (mode.kind) {
    case 'gaussian':
      return gaussianProfile({ ...mode, wavelengthUm, index })
    case 'step index':
      return stepIndexProfile({ ...mode, wavelengthUm })
    case 'index profile':
      return radialProfile(radialMode(mode, wavelengthUm))
    case 'sampled':
      return gridProfile(mode.field)
  }
}

/** The mode as it leaves or enters its face. Throws InputError for modes that do not exist. */
export function faceProfile(face: ModeAtFace, wavelengthUm: number, index: number): ModeProfile {
  const own = profileOf(face.mode, wavelengthUm, index)
  const { tip } = face
  const behindTip =
    tip === null
      ? own
      : refractedProfile(own, {
          radiusUm: tip.radiusUm,
          indexBefore: tip.guideIndex,
          indexAfter: index,
          wavelengthUm,
        })
  return stretchedProfile(behindTip, face.stretchX, face.stretchY)
}

const powerShare = ({ mode }: ModeAtFace) => (mode.kind === 'sampled' ? (mode.powerShare ?? 1) : 1)

export function fieldPairOf(spec: FieldJointSpec): FieldPair {
  const { wavelengthUm, index, propagation } = spec
  return {
    emitter: faceProfile(spec.emitter, wavelengthUm, index),
    receiver: faceProfile(spec.receiver, wavelengthUm, index),
    wavelengthUm,
    index,
    propagation,
    powerShare: powerShare(spec.emitter) * powerShare(spec.receiver),
  }
}

/** Text that is equal for equal joints and for no others. */
export function specKey(spec: FieldJointSpec): string {
  return JSON.stringify(spec, (name, value) => (name === 'field' ? undefined : value))
}
