// A mode as a function of place, in its own frame, ready to be sampled on any grid.

import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'

/** A complex amplitude, written in place so that sampling allocates nothing. */
export interface Amplitude {
  re: number
  im: number
}

export interface ModeProfile {
  /** Writes the amplitude at a place counted from the mode's axis, um; the scale is arbitrary. */
  readonly at: (xUm: number, yUm: number, out: Amplitude) => void
  /** Half widths of the frame outside which the amplitude no longer matters. */
  readonly reachXUm: number
  readonly reachYUm: number
  /** Sampling steps that resolve it: half a period of the highest spatial frequency that still matters. */
  readonly stepXUm: number
  readonly stepYUm: number
  /** Present where plane waves are known more accurately than from samples. */
  readonly plane?: PlaneWaves
}

/** The transform int f exp(-i k.x) of a profile at the product of two lists of wavenumbers, and int |f|^2. */
export interface PlaneWaves {
  readonly waves: (kx: Float64Array, ky: Float64Array, re: Float64Array, im: Float64Array) => void
  readonly powerUm2: number
  /** The same in every direction: a roll changes nothing. */
  readonly isRound: boolean
}

/** Amplitudes below this share of the peak, in space and in spatial frequency, are omitted from the first grid. */
const LEFT_OUT = 1e-6
const RADII = Math.sqrt(-Math.log(LEFT_OUT))

/** A Gaussian by its 1/e^2 intensity diameters, and the distance downstream of the plane at which its waists lie. */
interface GaussianShape {
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly waistXUm: number
  readonly waistYUm: number
  readonly wavelengthUm: number
  readonly index: number
}

/** Widest MFD that a grid is made for. */
const MFD_GREATEST_UM = 1e4
const DISTANCE_GREATEST_UM = 1e6

/**
 * The field of an elliptical Gaussian in the plane z = 0,
 *   exp(-i k x^2 / (2 q)) per axis, q = -waist + i zR, zR = k MFD^2 / 8.
 * Source: H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550 (from memory). Throws InputError outside sensible ranges.
 */
export function gaussianProfile(shape: GaussianShape): ModeProfile {
  requirePositive('wavelengthUm', shape.wavelengthUm)
  requirePositive('index', shape.index)
  const k = (2 * Math.PI * shape.index) / shape.wavelengthUm
  const axis = (name: 'X' | 'Y') => {
    const mfdUm = requireInRange(`mfd${name}Um`, shape[`mfd${name}Um`], 1e-2, MFD_GREATEST_UM)
    const waistUm = requireInRange(
      `waist${name}Um`,
      shape[`waist${name}Um`],
      -DISTANCE_GREATEST_UM,
      DISTANCE_GREATEST_UM,
    )
    const rayleighUm = (k * mfdUm * mfdUm) / 8
    const scale = k / (2 * (waistUm * waistUm + rayleighUm * rayleighUm))
    return {
      // -i k x^2 / (2 q) = (-decay + i turn) x^2
      decay: scale * rayleighUm,
      turn: scale * waistUm,
      reachUm: (RADII * mfdUm * Math.hypot(1, waistUm / rayleighUm)) / 2,
      stepUm: (Math.PI * mfdUm) / (4 * RADII),
    }
  }
  const x = axis('X')
  const y = axis('Y')
  return {
    at: (xUm, yUm, out) => {
      const size = Math.exp(-x.decay * xUm * xUm - y.decay * yUm * yUm)
      const phase = x.turn * xUm * xUm + y.turn * yUm * yUm
      out.re = size * Math.cos(phase)
      out.im = size * Math.sin(phase)
    },
    reachXUm: x.reachUm,
    reachYUm: y.reachUm,
    stepXUm: x.stepUm,
    stepYUm: y.stepUm,
    plane: gaussianPlane(x, y),
  }
}

interface GaussianAxis {
  readonly decay: number
  readonly turn: number
}

/** The transform of exp(-(decay - i turn) x^2) per axis, sqrt(pi / a) exp(-k^2 / (4 a)), a = decay - i turn. */
function gaussianPlane(x: GaussianAxis, y: GaussianAxis): PlaneWaves {
  const line = ({ decay, turn }: GaussianAxis, k: Float64Array) => {
    const square = decay * decay + turn * turn
    const size = Math.sqrt(Math.PI / Math.sqrt(square))
    const angle = Math.atan2(turn, decay) / 2
    const re = new Float64Array(k.length)
    const im = new Float64Array(k.length)
    for (let i = 0; i < k.length; i++) {
      const quarter = (k[i] as number) ** 2 / (4 * square)
      const amplitude = size * Math.exp(-decay * quarter)
      const phase = angle - turn * quarter
      re[i] = amplitude * Math.cos(phase)
      im[i] = amplitude * Math.sin(phase)
    }
    return { re, im }
  }
  return {
    powerUm2: Math.PI / (2 * Math.sqrt(x.decay * y.decay)),
    isRound: x.decay === y.decay && x.turn === y.turn,
    waves: (kx, ky, re, im) => {
      const across = line(x, kx)
      const up = line(y, ky)
      for (let iy = 0, i = 0; iy < ky.length; iy++) {
        const c = up.re[iy] as number
        const s = up.im[iy] as number
        for (let ix = 0; ix < kx.length; ix++, i++) {
          const a = across.re[ix] as number
          const b = across.im[ix] as number
          re[i] = a * c - b * s
          im[i] = a * s + b * c
        }
      }
    },
  }
}

/** The profile stretched along x and y, as an angled face widens a beam. Factors above 0, else InputError. */
export function stretchedProfile(profile: ModeProfile, factorX: number, factorY: number): ModeProfile {
  requirePositive('factorX', factorX)
  requirePositive('factorY', factorY)
  if (factorX === 1 && factorY === 1) return profile
  return {
    at: (xUm, yUm, out) => profile.at(xUm / factorX, yUm / factorY, out),
    reachXUm: profile.reachXUm * factorX,
    reachYUm: profile.reachYUm * factorY,
    stepXUm: profile.stepXUm * factorX,
    stepYUm: profile.stepYUm * factorY,
    ...(profile.plane && { plane: stretchedPlane(profile.plane, factorX, factorY) }),
  }
}

function stretchedPlane(
  { waves, powerUm2, isRound }: PlaneWaves,
  factorX: number,
  factorY: number,
): PlaneWaves {
  const factor = factorX * factorY
  return {
    powerUm2: powerUm2 * factor,
    isRound: isRound && factorX === factorY,
    waves: (kx, ky, re, im) => {
      waves(
        kx.map((k) => k * factorX),
        ky.map((k) => k * factorY),
        re,
        im,
      )
      for (let i = 0; i < re.length; i++) {
        re[i] = (re[i] as number) * factor
        im[i] = (im[i] as number) * factor
      }
    },
  }
}

/** A refracting face in the plane of the profile: a sphere of `radiusUm`, bulging downstream where positive. */
export interface FacePhase {
  readonly radiusUm: number
  readonly indexBefore: number
  readonly indexAfter: number
  readonly wavelengthUm: number
}

/**
 * The profile behind a spherical face that it meets as a plane wave would, in the plane through the apex. A ray at radius
 * r leaves the glass early by the sag R - sqrt(R^2 - r^2): phase + k0 (n1 - n2) sag, which focuses. Light beyond the
 * sphere's own radius is lost.
 * Throws InputError for a radius of 0.
 */
export function refractedProfile(profile: ModeProfile, face: FacePhase): ModeProfile {
  const { radiusUm } = face
  if (!Number.isFinite(radiusUm) || radiusUm === 0)
    throw new InputError('radiusUm', radiusUm, 'a finite number other than 0')
  const perUm = (2 * Math.PI * (face.indexBefore - face.indexAfter)) / face.wavelengthUm
  const square = radiusUm * radiusUm
  const edge = Math.min(Math.max(profile.reachXUm, profile.reachYUm), 0.7 * Math.abs(radiusUm))
  // The steepest phase at the edge of the mode adds to its own spatial frequencies.
  const steepest = Math.abs(perUm) * (edge / Math.sqrt(square - edge * edge))
  const step = (own: number) => Math.PI / (Math.PI / own + steepest)
  return {
    at: (xUm, yUm, out) => {
      const r2 = xUm * xUm + yUm * yUm
      if (r2 >= square) {
        out.re = 0
        out.im = 0
        return
      }
      profile.at(xUm, yUm, out)
      const sag = Math.sign(radiusUm) * (r2 / (Math.abs(radiusUm) + Math.sqrt(square - r2)))
      const c = Math.cos(perUm * sag)
      const s = Math.sin(perUm * sag)
      const { re, im } = out
      out.re = re * c - im * s
      out.im = re * s + im * c
    },
    reachXUm: profile.reachXUm,
    reachYUm: profile.reachYUm,
    stepXUm: step(profile.stepXUm),
    stepYUm: step(profile.stepYUm),
  }
}
