// A real lens: two faces with conic and even aspheric terms and glass between them, or a gradient-index rod.
// Faces are numbered from the side of the mode to the collimated side; a radius is positive if its centre is on the far side.
//   sag = c r^2 / (1 + sqrt(1 - (1 + conic) c^2 r^2)) + A4 r^4 + A6 r^6 + ..., c = 1 / radius
//   n(r) = n0 (1 - (g r)^2 / 2 + h4 (g r)^4)
// Source: ISO 10110-12 for the sag (from memory); the profile is that of abcd.ts with its next term. Micrometres.

export interface LensFace {
  /** Infinity for a flat face. */
  readonly radiusUm: number
  /** 0 for a sphere, -1 for a paraboloid. */
  readonly conic: number
  /** A4, A6, ... in 1/um^3, 1/um^5, ...; none for a conic. */
  readonly asphericPerUm: readonly number[]
}

export interface LensShape {
  readonly index: number
  /** Of the medium on both sides. */
  readonly mediumIndex: number
  readonly thicknessUm: number
  readonly first: LensFace
  readonly last: LensFace
  /** Present for a rod; `index` is then that on the axis. */
  readonly gradient?: { readonly perUm: number; readonly fourth: number }
}

export const FLAT_FACE: LensFace = { radiusUm: Number.POSITIVE_INFINITY, conic: 0, asphericPerUm: [] }

export const sphericalFace = (radiusUm: number): LensFace => ({ radiusUm, conic: 0, asphericPerUm: [] })
