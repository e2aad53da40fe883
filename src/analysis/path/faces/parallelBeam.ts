// Whether the beam between the lenses of a relay is parallel, and where its end face must be for that.
//   zc(x) = f^2 z0 / (x^2 + z0^2),   parallel where stretch <= 2 zc
// x is the distance of the waist from the front focus of lens 1, z0 and zc the Rayleigh ranges before and behind it.
// A beam stays within 1.41 of its waist over two Rayleigh ranges about it (Kogelnik & Li, Appl. Opt. 5 (1966) 1550, eq. 20);
// zc from the magnification of a lens (Saleh & Teich, Fundamentals of Photonics, eq. 3.2-9). Paraxial. Micrometres.

/** A stretch may be this many Rayleigh ranges long. */
const COLLIMATED_RANGES = 2

interface Stretch {
  readonly stretchUm: number
  readonly collimatedRayleighUm: number
}

export function staysParallel({ stretchUm, collimatedRayleighUm }: Stretch): boolean {
  return stretchUm <= COLLIMATED_RANGES * collimatedRayleighUm
}

/** Kept free at the ends of the reach, so that rounded distances stay parallel. */
const MARGIN = 0.99

/** How far the waist may be from the front focus, um; null where the beam is not parallel even there. */
export function parallelReachUm(focalUm: number, rayleighUm: number, stretchUm: number): number | null {
  const square = (MARGIN * COLLIMATED_RANGES * focalUm ** 2 * rayleighUm) / stretchUm - rayleighUm ** 2
  return square > 0 ? Math.sqrt(square) : null
}
