// Where the field of a mode above a substrate of higher index is set to zero. A wave that decays in the layer as exp(g y), y from the
// substrate's surface, returns with
//   r = (a + i b) / (a - i b),   TE  a = g, b = ks   TM  a = g / eps_layer, b = ks / eps_substrate
// and a wall at the depth d with -exp(-2 g d). Both agree in their real part, which moves the field; the imaginary part is the leakage.
//   d = ln[(b^2 + a^2) / (b^2 - a^2)] / (2 g)
// Source: derived here from Fresnel's formulas for evanescent waves.

import type { WaveKind } from './waveOperator'

/**
 * Depth of the wall below the surface, um, at the decay rate of the axial wave; infinite where the substrate repels the field no
 * longer. 0 where the effective index is below that of the layer.
 */
export function wallDepthUm(
  kind: WaveKind,
  wavelengthUm: number,
  effectiveIndex: number,
  layerIndex: number,
  substrateIndex: number,
): number {
  const k = (2 * Math.PI) / wavelengthUm
  const decay = k * Math.sqrt(Math.max(0, effectiveIndex ** 2 - layerIndex ** 2))
  if (decay === 0) return 0
  const below = k * Math.sqrt(Math.max(0, substrateIndex ** 2 - effectiveIndex ** 2))
  const a = kind === 'TM' ? decay / layerIndex ** 2 : decay
  const b = kind === 'TM' ? below / substrateIndex ** 2 : below
  return b > a ? Math.log((b * b + a * a) / (b * b - a * a)) / (2 * decay) : Number.POSITIVE_INFINITY
}
