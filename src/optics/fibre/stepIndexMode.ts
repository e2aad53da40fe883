// The fundamental (LP01) mode of a weakly guiding step-index fibre, solved exactly.
//   V = 2 pi a NA / lambda,  U J1(U) / J0(U) = W K1(W) / K0(W),  U^2 + W^2 = V^2,  b = W^2 / V^2
//   Petermann I:  w^2 = 2 int E^2 r^3 dr / int E^2 r dr = a^2 4/3 [J0(U) / (U J1(U)) + 1/2 + 1/W^2 - 1/U^2]
//   Petermann II: w^2 = 2 int E^2 r dr / int (dE/dr)^2 r dr = a^2 2 (J1(U) / (W J0(U)))^2
//   best Gaussian: the width whose power overlap with the mode is greatest
// Sources: D. Gloge, Appl. Opt. 10 (1971) 2252; K. Petermann, Electron. Lett. 12 (1976) 107 (I) and 19 (1983) 712
// (II); D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (best Gaussian). Citations from memory, formulas checked by
// quadrature. Micrometres; MFD = 2 w. Weak guidance: trust for NA below about 0.4.

import { besselJ0, besselJ1, besselK0Scaled, besselK1Scaled } from '../../numerics/bessel'
import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'
import { plainText, significantText } from '../../numerics/numberText'
import { brentRoot } from '../../numerics/roots'
import { type Lp01Mode, lp01Samples } from './lp01Field'

export interface StepIndexFibre {
  readonly coreRadiusUm: number
  readonly na: number
  readonly wavelengthUm: number
}

export interface StepIndexMode {
  readonly V: number
  readonly U: number
  readonly W: number
  readonly b: number
  readonly petermann1MfdUm: number
  readonly petermann2MfdUm: number
  readonly bestGaussianMfdUm: number
  readonly bestGaussianOverlap: number
}

/** Normalised frequencies the solver accepts: below, the mode fills the cladding; above, dozens of modes guide. */
export const V_RANGE = [0.6, 20] as const

/** First zero of J0: the V at which the second mode group (LP11) begins to guide. */
export const LP11_CUTOFF_V = 2.404825557695773

/** Whether LP01 is the only guided mode. */
export const isSingleMode = (V: number): boolean => V < LP11_CUTOFF_V

/** Normalised frequency. Throws InputError for a radius or wavelength at 0 or below, or an NA outside 0..1. */
export function normalisedFrequency(fibre: StepIndexFibre): number {
  requirePositive('coreRadiusUm', fibre.coreRadiusUm)
  requirePositive('wavelengthUm', fibre.wavelengthUm)
  requirePositive('na', fibre.na)
  requireInRange('na', fibre.na, 0, 1)
  return (2 * Math.PI * fibre.coreRadiusUm * fibre.na) / fibre.wavelengthUm
}

/** U and W of LP01 at a V within V_RANGE, to about 1e-14. Throws InputError outside. */
export function solveLp01(V: number): Lp01Mode {
  requireInRange('V', V, ...V_RANGE)
  // The unknown is W, which keeps its digits where the mode is weakly bound and V^2 - U^2 would lose them.
  const mismatch = (W: number) => {
    const U = Math.sqrt((V - W) * (V + W))
    return U * besselJ1(U) * besselK0Scaled(W) - W * besselK1Scaled(W) * besselJ0(U)
  }
  const least = V > LP11_CUTOFF_V ? Math.sqrt(V * V - LP11_CUTOFF_V ** 2) : V * 1e-4
  const root = brentRoot(mismatch, least, V)
  if (root.end !== 'converged') throw new Error(`LP01 search at V = ${V} ended with ${root.end}`)
  return { U: Math.sqrt((V - root.x) * (V + root.x)), W: root.x }
}

/**
 * The mode of a fibre: normalised quantities, both Petermann diameters and the best Gaussian, relative 1e-9.
 * Throws InputError for impossible fibres and for V outside V_RANGE.
 */
export function stepIndexMode(fibre: StepIndexFibre): StepIndexMode {
  const V = normalisedFrequency(fibre)
  if (V < V_RANGE[0] || V > V_RANGE[1]) {
    const coreDiameterUm = 2 * fibre.coreRadiusUm
    const scale = coreDiameterUm / V
    const allowed = `${significantText(V_RANGE[0] * scale, 4)} to ${significantText(V_RANGE[1] * scale, 4)}`
    throw new InputError(
      'the core diameter',
      `${plainText(coreDiameterUm, 4)} µm`,
      `${allowed} µm at this NA and wavelength (V 0.6 to 20)`,
    )
  }
  const mode = solveLp01(V)
  const { U, W } = mode
  const ratio = besselJ1(U) / besselJ0(U)
  const petermann1 = Math.sqrt((4 / 3) * (1 / (U * ratio) + 0.5 + 1 / W ** 2 - 1 / U ** 2))
  const petermann2 = (Math.SQRT2 * ratio) / W
  const best = bestGaussian(mode, petermann1, petermann2)
  const diameterUm = 2 * fibre.coreRadiusUm
  return {
    V,
    U,
    W,
    b: (W / V) ** 2,
    petermann1MfdUm: petermann1 * diameterUm,
    petermann2MfdUm: petermann2 * diameterUm,
    bestGaussianMfdUm: best.radius * diameterUm,
    bestGaussianOverlap: best.overlap,
  }
}

/** Share of the mode's power that travels in the core, 0..1 (D. Gloge, as above). */
export function corePowerFraction({ U, W }: Lp01Mode): number {
  const V2 = U * U + W * W
  const ratio = besselJ0(U) / besselJ1(U)
  return (W * W * (1 + ratio * ratio)) / V2
}

/**
 * Best Gaussian radius w in core radii and its power overlap I^2 / (P w^2 / 4), I = int E exp(-r^2/w^2) r dr. At the
 * maximum w I' = I, a root that keeps all digits where a search on the flat top would lose half of them.
 */
function bestGaussian(mode: Lp01Mode, petermann1: number, petermann2: number) {
  const { radius, field, weight } = lp01Samples(mode, Math.min(1 + 30 / mode.W, 6 * petermann1))
  const moments = (w: number) => {
    let overlap = 0
    let spread = 0
    for (let i = 0; i < radius.length; i++) {
      const square = ((radius[i] as number) / w) ** 2
      const part = (weight[i] as number) * (field[i] as number) * Math.exp(-square)
      overlap += part
      spread += 2 * square * part
    }
    return { overlap, spread }
  }
  const imbalance = (w: number) => {
    const { overlap, spread } = moments(w)
    return spread / overlap - 1
  }
  // Petermann II, small by its weight on the steep core, and Petermann I, large by its tails, bracket the best width.
  const root = brentRoot(imbalance, 0.9 * petermann2, petermann1, { tolerance: 1e-12 })
  if (root.end !== 'converged') throw new Error(`best Gaussian at W = ${mode.W} ended with ${root.end}`)
  const { overlap } = moments(root.x)
  const power = (besselJ1(mode.U) / besselJ0(mode.U) / mode.W) ** 2 * (mode.U ** 2 + mode.W ** 2) * 0.5
  return { radius: root.x, overlap: (4 * overlap ** 2) / (power * root.x ** 2) }
}
