// The index at which guidance ends: that of the half spaces, or of the fundamental mode of the layers next to the cores.

import type { CrossSection } from './crossSection'
import type { GridAxis } from './grid'
import { axisFromFaces } from './grid'
import { slicesOf } from './slices'
import type { WaveKind, WaveOperator } from './waveOperator'
import { WALLS, waveOperator } from './waveOperator'

/** Greatest eigenvalue of a line of cells along y, by counting sign changes of pivots (Sturm). */
function lineEigenvalue({ ny, own, south, north }: WaveOperator, low: number, high: number): number {
  const allPositive = (sigma: number) => {
    let pivot = sigma - (own[0] as number)
    for (let j = 1; j < ny; j++) {
      if (pivot <= 0) return false
      pivot = sigma - (own[j] as number) - ((south[j] as number) * (north[j - 1] as number)) / pivot
    }
    return pivot > 0
  }
  if (allPositive(low)) return low
  let [below, above] = [low, high]
  for (let i = 0; i < 60 && above - below > 1e-14 * above; i++) {
    const middle = (below + above) / 2
    if (allPositive(middle)) above = middle
    else below = middle
  }
  return above
}

/**
 * Effective index of the fundamental mode of the stack without cores on the given cells, or the half spaces' index where it
 * has none. With `walled` the field ends at the lower border, and no half space lies below.
 */
export function cutOffIndex(
  section: CrossSection,
  kind: WaveKind,
  y: GridAxis,
  wavelengthUm: number,
  walled: boolean,
): number {
  const least = walled ? section.coverIndex : Math.max(section.substrateIndex, section.coverIndex)
  const most = Math.max(least, ...section.layers.map((layer) => layer.index))
  if (most <= least) return least
  const k2 = ((2 * Math.PI) / wavelengthUm) ** 2
  const bare = { ...section, cores: [] }
  const x = axisFromFaces(Float64Array.of(0, 1))
  const operator = waveOperator(kind, slicesOf(bare, y.faces), x, y, wavelengthUm, {
    ...WALLS,
    left: 'mirror',
    right: 'mirror',
  })
  return Math.sqrt(lineEigenvalue(operator, k2 * least ** 2, k2 * most ** 2) / k2)
}
