// Reflection of a plane wave at the face between two lossless media.
//   rs = (n1 cos i - n2 cos t) / (n1 cos i + n2 cos t),  rp = (n2 cos i - n1 cos t) / (n2 cos i + n1 cos t)
// Source: M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 1.5.2. Powers; s is the field normal to the
// plane of incidence. For a mode it holds where the mode spans many wavelengths or the contrast is small.

import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'
import { fixedText } from '../../numerics/numberText'

export interface FacePair {
  /** Index of the medium the light comes from. */
  readonly index1: number
  readonly index2: number
  /** Angle to the face normal in the first medium, 0 (the default) to below pi/2. */
  readonly incidenceRad?: number
}

export interface FresnelReflectance {
  readonly s: number
  readonly p: number
  readonly unpolarised: number
  readonly totalInternalReflection: boolean
}

/** Reflected power, 0..1; 1 with the flag set beyond the critical angle. Throws InputError for bad indices or angle. */
export function fresnelReflectance(face: FacePair): FresnelReflectance {
  const n1 = requirePositive('index1', face.index1)
  const n2 = requirePositive('index2', face.index2)
  const incidence = requireIncidence(face.incidenceRad ?? 0)
  const sine = (n1 * Math.sin(incidence)) / n2
  if (sine >= 1) return { s: 1, p: 1, unpolarised: 1, totalInternalReflection: true }
  const cosI = Math.cos(incidence)
  const cosT = Math.sqrt(1 - sine * sine)
  const s = ((n1 * cosI - n2 * cosT) / (n1 * cosI + n2 * cosT)) ** 2
  const p = ((n2 * cosI - n1 * cosT) / (n2 * cosI + n1 * cosT)) ** 2
  return { s, p, unpolarised: (s + p) / 2, totalInternalReflection: false }
}

/** Transmission loss of one face in dB, unpolarised. Throws InputError beyond the critical angle: nothing passes. */
export function fresnelLossDb(face: FacePair): number {
  const { unpolarised, totalInternalReflection } = fresnelReflectance(face)
  if (totalInternalReflection) {
    const critical = Math.asin(face.index2 / face.index1)
    throw new InputError(
      'incidenceRad',
      face.incidenceRad,
      `below the critical angle, ${fixedText(critical, 4)}`,
    )
  }
  return (0 - 10 * Math.log1p(-unpolarised)) / Math.LN10
}

function requireIncidence(incidenceRad: number): number {
  const value = requireInRange('incidenceRad', incidenceRad, 0, Math.PI / 2)
  if (value === Math.PI / 2) throw new InputError('incidenceRad', value, '0 to below pi/2')
  return value
}
