// What an angled end face does to a beam, written into a record that is made once: no allocation in hot loops.

export type Mutable<T> = { -readonly [K in keyof T]: T[K] }

/** One end face between a guide and the gap. */
export interface FaceNumbers {
  readonly faceAngleRad: number
  /** Angle to the face normal in the gap medium. */
  readonly mediumAngleRad: number
  /** Slope of the beam in the medium against the guide's axis. */
  readonly slopeRad: number
  /** Width of the beam in the plane of the angle, in the medium over in the guide. */
  readonly widthScale: number
  /** Reflected and transmitted power for the polarisation that was requested of `fill`. */
  readonly reflectance: number
  readonly transmission: number
  /** Whether all light is totally reflected. */
  readonly blocked: boolean
}

export const newFace = (): Mutable<FaceNumbers> => ({
  faceAngleRad: 0,
  mediumAngleRad: 0,
  slopeRad: 0,
  widthScale: 1,
  reflectance: 0,
  transmission: 1,
  blocked: false,
})

/**
 * What an angled face does to the beam: Snell, footprint, Fresnel (see optics/snell.ts and optics/fresnel.ts, whose
 * results these are, without records and checks).
 */
export function fillFace(
  face: Mutable<FaceNumbers>,
  guideIndex: number,
  mediumIndex: number,
  angleRad: number,
  seen: 's' | 'p' | 'both' = 'both',
): void {
  face.faceAngleRad = angleRad
  if (angleRad === 0) {
    const r = (guideIndex - mediumIndex) / (guideIndex + mediumIndex)
    face.mediumAngleRad = 0
    face.slopeRad = 0
    face.widthScale = 1
    face.reflectance = r * r
    face.transmission = 1 - r * r
    face.blocked = false
    return
  }
  const sine = (guideIndex * Math.sin(angleRad)) / mediumIndex
  face.blocked = Math.abs(sine) >= 1
  const refracted = face.blocked ? 0 : Math.asin(sine)
  const cosGuide = face.blocked ? 1 : Math.cos(angleRad)
  const cosMedium = Math.cos(refracted)
  const s =
    (guideIndex * cosGuide - mediumIndex * cosMedium) / (guideIndex * cosGuide + mediumIndex * cosMedium)
  const p =
    (guideIndex * cosMedium - mediumIndex * cosGuide) / (guideIndex * cosMedium + mediumIndex * cosGuide)
  face.mediumAngleRad = refracted
  face.slopeRad = face.blocked ? 0 : refracted - angleRad
  face.widthScale = cosMedium / cosGuide
  face.reflectance = face.blocked ? 1 : seen === 's' ? s * s : seen === 'p' ? p * p : (s * s + p * p) / 2
  face.transmission = 1 - face.reflectance
}
