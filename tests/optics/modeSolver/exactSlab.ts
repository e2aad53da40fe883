// The symmetric and asymmetric slab, solved exactly: kappa t = atan(c1 g1 / kappa) + atan(c2 g2 / kappa), c = 1 for TE and
// (n_core / n_clad)^2 for TM. Source: A. W. Snyder and J. D. Love, Optical Waveguide Theory (1983), ch. 12, from memory.

import { brentRoot } from '../../../src/numerics/roots'

export interface Slab {
  readonly coreIndex: number
  readonly belowIndex: number
  readonly aboveIndex: number
  readonly thicknessUm: number
  readonly wavelengthUm: number
}

/** Effective index of the fundamental mode. */
export function slabIndex(kind: 'TE' | 'TM', slab: Slab): number {
  const k = (2 * Math.PI) / slab.wavelengthUm
  const mismatch = (index: number) => {
    const kappa = k * Math.sqrt(slab.coreIndex ** 2 - index ** 2)
    const phase = (clad: number) => {
      const ratio = kind === 'TM' ? (slab.coreIndex / clad) ** 2 : 1
      return Math.atan((ratio * k * Math.sqrt(Math.max(0, index ** 2 - clad ** 2))) / kappa)
    }
    return kappa * slab.thicknessUm - phase(slab.belowIndex) - phase(slab.aboveIndex)
  }
  const least = Math.max(slab.belowIndex, slab.aboveIndex)
  return brentRoot(mismatch, least + 1e-12, slab.coreIndex - 1e-12).x
}
