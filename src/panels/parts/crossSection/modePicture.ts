// A solved mode as its pictures take it: intensities in decibels, and the best-fit Gaussian beside them.

import type { Cut, FacetMode } from '../../../analysis/crossSection/facetMode'
import type { CutLine } from '../../../figures/field/solvedMode'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import { coreCorners, layerHeights } from './sectionShapes'

const LEAST = 1e-12

const decibel = (amplitude: number) => 20 * Math.log10(Math.max(LEAST, Math.abs(amplitude)))

/** The intensity over the cross-section in dB below its peak, with the outlines and the best-fit Gaussian. */
export function modePicture(
  mode: Pick<FacetMode, 'picture' | 'widths'>,
  section: Pick<CrossSectionEntry, 'cores' | 'layers'>,
) {
  const { nx, ny, dxUm, dyUm, x0Um, y0Um, re } = mode.picture
  const { centreUm, mfdUm } = mode.widths.gaussian
  let peak = 0
  for (const value of re) peak = Math.max(peak, Math.abs(value))
  return {
    xUm: Array.from({ length: nx }, (_, i) => centreUm.x + x0Um + i * dxUm),
    yUm: Array.from({ length: ny }, (_, j) => centreUm.y + y0Um + j * dyUm),
    rowsDb: Array.from({ length: ny }, (_, j) =>
      Array.from({ length: nx }, (_, i) => decibel((re[j * nx + i] ?? 0) / peak)),
    ),
    cores: coreCorners(section).map((corners) => {
      const closed = [...corners, ...corners.slice(0, 1)]
      return { x: closed.map((point) => point.xUm), y: closed.map((point) => point.yUm) }
    }),
    layerHeightsUm: layerHeights(section),
    gaussian: { centreX: centreUm.x, centreY: centreUm.y, mfdX: mfdUm.x, mfdY: mfdUm.y },
  }
}

/** A cut from the centre of the best-fit Gaussian, next to that Gaussian; the field of the cut is 1 at its peak. */
export function cutLine(name: string, { positionUm, field }: Cut, centreUm: number, mfdUm: number): CutLine {
  const from = Array.from(positionUm, (position) => position - centreUm)
  return {
    name,
    positionUm: from,
    db: Array.from(field, decibel),
    gaussianDb: from.map((position) => (-80 / Math.LN10) * (position / mfdUm) ** 2),
  }
}
