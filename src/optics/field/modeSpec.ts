// A joint of two modes as plain data: what can be stored, sent to a worker, and identified by its text.

import type { FieldPair, Propagation } from './fieldPose'
import { type GradedField, gradedProfile } from './gradedField'
import { gridProfile } from './gridProfile'
import { gaussianProfile, type ModeProfile, refractedProfile, stretchedProfile } from './modeProfile'
import { radialMode } from './radialMode'
import { radialProfile } from './radialProfile'
import type { SampledField } from './sampledField'
import { stepIndexProfile } from './stepIndexProfile'
import { tipProfile } from './tipProfile'

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
      /** Identifies this field. */
      readonly key: string
      /** Share of the mode's power that the samples hold, 1 by default; the rest, polarised across, couples to nothing. */
      readonly powerShare?: number
      /** The grid that the samples were taken from: its plane waves are used; the samples are for pictures and rolls. */
      readonly graded?: GradedField
    }

/** A mode at an end face: a ground tip may refract it, and an angled face may stretch it. */
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

/** Profiles of fields, made once: a profile of a graded field also keeps its latest plane waves. */
const sampled = new WeakMap<GradedField | SampledField, ModeProfile>()

function sampledProfile(field: SampledField, graded: GradedField | undefined): ModeProfile {
  const profile =
    sampled.get(graded ?? field) ?? (graded === undefined ? gridProfile(field) : gradedProfile(field, graded))
  sampled.set(graded ?? field, profile)
  return profile
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
      return sampledProfile(mode.field, mode.graded)
  }
}

/** A mode at its face with the share of its power that the profile holds. */
interface FaceMode {
  readonly profile: ModeProfile
  readonly powerShare: number
}

/** A mode that is the same in every direction: the sphere of a tip then keeps it so. */
const isRound = (mode: ModeSpec): boolean =>
  mode.kind === 'gaussian'
    ? mode.mfdXUm === mode.mfdYUm && mode.waistXUm === 0 && mode.waistYUm === 0
    : mode.kind !== 'sampled'

/** The mode as it leaves or enters its face. Throws InputError for modes that do not exist. */
function faceMode(face: ModeAtFace, wavelengthUm: number, index: number): FaceMode {
  const { tip, mode, stretchX, stretchY } = face
  const own = profileOf(mode, wavelengthUm, index)
  const held = mode.kind === 'sampled' ? (mode.powerShare ?? 1) : 1
  if (tip === null) return { profile: stretchedProfile(own, stretchX, stretchY), powerShare: held }
  const sphere = { radiusUm: tip.radiusUm, indexBefore: tip.guideIndex, indexAfter: index, wavelengthUm }
  const behindTip = isRound(mode)
    ? tipProfile(own, sphere)
    : { profile: refractedProfile(own, sphere), powerShare: 1 }
  return {
    profile: stretchedProfile(behindTip.profile, stretchX, stretchY),
    powerShare: held * behindTip.powerShare,
  }
}

export function fieldPairOf(spec: FieldJointSpec): FieldPair {
  const { wavelengthUm, index, propagation } = spec
  const emitter = faceMode(spec.emitter, wavelengthUm, index)
  const receiver = faceMode(spec.receiver, wavelengthUm, index)
  return {
    emitter: emitter.profile,
    receiver: receiver.profile,
    wavelengthUm,
    index,
    propagation,
    powerShare: emitter.powerShare * receiver.powerShare,
  }
}

/** Text that is equal for equal joints and for no others. */
export function specKey(spec: FieldJointSpec): string {
  return JSON.stringify(spec, (name, value) => (name === 'field' || name === 'graded' ? undefined : value))
}
