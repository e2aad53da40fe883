// Complex numbers as plain pairs, for what needs a phase: coatings and interference.

export interface Complex {
  readonly re: number
  readonly im: number
}

export const complex = (re: number, im = 0): Complex => ({ re, im })

export const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im })

export const minus = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im })

export const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
})

export function over(a: Complex, b: Complex): Complex {
  const square = squareOf(b)
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square }
}

/** Square of the modulus. */
export const squareOf = (a: Complex): number => a.re * a.re + a.im * a.im

/** The root with a real part of 0 or more; on the negative real axis the one with a positive imaginary part. */
export function root(a: Complex): Complex {
  const modulus = Math.hypot(a.re, a.im)
  // The larger part first, because the smaller one would lose its digits in the difference.
  if (a.re >= 0) {
    const re = Math.sqrt((modulus + a.re) / 2)
    return { re, im: re === 0 ? 0 : a.im / (2 * re) }
  }
  const im = Math.sqrt((modulus - a.re) / 2)
  return { re: Math.abs(a.im) / (2 * im), im: a.im < 0 ? -im : im }
}

/** A number of modulus 1 with the given phase. */
export const phasor = (phaseRad: number): Complex => ({ re: Math.cos(phaseRad), im: Math.sin(phaseRad) })
