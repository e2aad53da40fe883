// Reflection and transmission of a plane wave at a stack of thin films between two lossless media.
//   per layer:  delta = 2 pi N d cos(t) / lambda,  M = [cos delta, i sin delta / eta; i eta sin delta, cos delta]
//   [B; C] = product of M * [1; eta2],  r = (eta1 B - C) / (eta1 B + C)
//   R = |r|^2,  T = 4 eta1 Re(eta2) / |eta1 B + C|^2,  A = 4 eta1 Re(B C* - eta2) / |eta1 B + C|^2
//   eta = N cos(t) for s, N / cos(t) for p;  N = n - i k, time dependence exp(+i omega t)
// Source: M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 1.6 (F. Abeles' matrices); R, T and A are three
// separate formulas, so that their sum of 1 is a check. A stack without layers is the bare face of fresnel.ts.
// Plane, even films; no roughness. Micrometres, radians.

import { type Complex, complex, minus, over, plus, root, squareOf, times } from '../../numerics/complex'
import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'

export interface ThinFilm {
  readonly index: number
  readonly thicknessUm: number
  /** Imaginary part of the index, 0 (the default) for a film without absorption. */
  readonly extinction?: number
}

export interface FilmStack {
  readonly wavelengthUm: number
  /** Index of the medium the light comes from. */
  readonly index1: number
  readonly index2: number
  /** Along the path. */
  readonly films: readonly ThinFilm[]
  /** Angle to the normal in the first medium, 0 (the default) to below pi/2. */
  readonly incidenceRad?: number
}

export const PLANE_POLARISATIONS = ['s', 'p'] as const
export type PlanePolarisation = (typeof PLANE_POLARISATIONS)[number]

export interface StackResponse {
  readonly reflectance: number
  readonly transmittance: number
  readonly absorptance: number
  /** Reflected tangential field over the incident one: at normal incidence s and p are alike. */
  readonly amplitude: Complex
}

/** Reflection and transmission of the stack for s (field normal to the plane of incidence) or p. Throws InputError for impossible numbers. */
export function stackResponse(stack: FilmStack, polarisation: PlanePolarisation): StackResponse {
  const n1 = requirePositive('index1', stack.index1)
  const n2 = requirePositive('index2', stack.index2)
  requirePositive('wavelengthUm', stack.wavelengthUm)
  const incidence = requireInRange('incidenceRad', stack.incidenceRad ?? 0, 0, Math.PI / 2)
  if (incidence === Math.PI / 2) throw new InputError('incidenceRad', incidence, '0 to below pi/2')
  const sine = n1 * Math.sin(incidence)
  const eta1 = admittance(complex(n1), cosineIn(complex(n1), sine), polarisation).re
  const eta2 = admittance(complex(n2), cosineIn(complex(n2), sine), polarisation)
  let b = complex(1)
  let c = eta2
  for (let i = stack.films.length - 1; i >= 0; i--) {
    const film = stack.films[i]
    if (film === undefined) continue
    const index = filmIndex(film)
    const cosine = cosineIn(index, sine)
    const eta = admittance(index, cosine, polarisation)
    const path = (2 * Math.PI * film.thicknessUm) / stack.wavelengthUm
    const delta = times(complex(path), times(index, cosine))
    const cosDelta = cosineOf(delta)
    const iSinDelta = times(complex(0, 1), sineOf(delta))
    const next = plus(times(cosDelta, b), times(over(iSinDelta, eta), c))
    c = plus(times(times(eta, iSinDelta), b), times(cosDelta, c))
    b = next
  }
  const first = times(complex(eta1), b)
  const square = squareOf(plus(first, c))
  const amplitude = over(minus(first, c), plus(first, c))
  const passed = Math.max(0, eta2.re)
  // Rounding alone could put a perfect face at 1 + 2e-16, which is not a power ratio.
  return {
    reflectance: Math.min(1, squareOf(amplitude)),
    transmittance: Math.min(1, (4 * eta1 * passed) / square),
    absorptance: (4 * eta1 * (b.re * c.re + b.im * c.im - passed)) / square,
    amplitude,
  }
}

/** Mean of s and p, for unpolarised light. */
export function stackReflectance(stack: FilmStack): number {
  const s = stackResponse(stack, 's').reflectance
  return (stack.incidenceRad ?? 0) === 0 ? s : (s + stackResponse(stack, 'p').reflectance) / 2
}

function filmIndex(film: ThinFilm): Complex {
  requirePositive('film index', film.index)
  requireInRange('film thicknessUm', film.thicknessUm, 0, 1000)
  return complex(film.index, -requireInRange('film extinction', film.extinction ?? 0, 0, 10))
}

/** Cosine of the angle in a medium, with the sign that lets an evanescent or absorbed wave decay. */
function cosineIn(index: Complex, sine: number): Complex {
  const ratio = over(complex(sine), index)
  const cosine = root(minus(complex(1), times(ratio, ratio)))
  const along = times(index, cosine)
  return along.im > 0 ? complex(-cosine.re, -cosine.im) : cosine
}

function admittance(index: Complex, cosine: Complex, polarisation: PlanePolarisation): Complex {
  return polarisation === 's' ? times(index, cosine) : over(index, cosine)
}

const cosineOf = ({ re, im }: Complex): Complex =>
  complex(Math.cos(re) * Math.cosh(im), -Math.sin(re) * Math.sinh(im))

const sineOf = ({ re, im }: Complex): Complex =>
  complex(Math.sin(re) * Math.cosh(im), Math.cos(re) * Math.sinh(im))
