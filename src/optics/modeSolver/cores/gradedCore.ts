// Cores without walls, whose index falls off gradually, as after diffusion in glass:
//   n(x, y) = n_host(y) + (n_peak - n_host) share(x, y)
// Source: J. Crank, The Mathematics of Diffusion (1975), ch. 2 (from memory): a Gaussian for a limited source, erfc for a
// constant one.

import { normalProbability } from '../../../numerics/normal'
import type { GradedCore } from '../crossSection'

const DEPTH_PROFILES = ['buried Gaussian', 'surface Gaussian', 'surface erfc'] as const
type DepthProfile = (typeof DEPTH_PROFILES)[number]

/** erfc(x) = 2 (1 - Phi(x sqrt 2)) */
const erfc = (x: number) => 2 * normalProbability(-x * Math.SQRT2)

/** Share of the peak step below which the index is treated as that of the host. */
const OVER = 1e-6

/**
 * A diffused core, Gaussian along the surface. `widthUm` is the full 1/e width of the index step. For a buried core
 * `heightUm` is its full 1/e height about the middle; for a surface core the depth below bottomUm + heightUm, the surface, at which the
 * profile has fallen to 1/e (Gaussian) or to erfc(1) (erfc).
 */
export function diffusedCore({
  depth,
  ...size
}: Omit<GradedCore, 'shape' | 'share' | 'reach'> & { readonly depth: DepthProfile }): GradedCore {
  const { xUm, bottomUm, widthUm, heightUm } = size
  const topUm = bottomUm + heightUm
  const along = (x: number) => Math.exp(-(((2 * (x - xUm)) / widthUm) ** 2))
  const vertical = (y: number): number => {
    if (depth === 'buried Gaussian') return Math.exp(-(((2 * (y - bottomUm)) / heightUm - 1) ** 2))
    const down = (topUm - y) / heightUm
    if (down < 0) return 0
    return depth === 'surface Gaussian' ? Math.exp(-down * down) : erfc(down)
  }
  const radii = Math.sqrt(-Math.log(OVER))
  const deep = radii * heightUm
  return {
    ...size,
    shape: 'graded',
    share: (x, y) => along(x) * vertical(y),
    reach: {
      leftUm: xUm - (radii * widthUm) / 2,
      rightUm: xUm + (radii * widthUm) / 2,
      bottomUm: depth === 'buried Gaussian' ? bottomUm + heightUm / 2 - deep / 2 : topUm - deep,
      topUm: depth === 'buried Gaussian' ? bottomUm + heightUm / 2 + deep / 2 : topUm,
    },
  }
}
