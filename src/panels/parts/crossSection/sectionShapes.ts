// Outlines of a cross-section, for the drawing and for the picture of the mode.

import { coreValue } from '../../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'

export interface Point {
  readonly xUm: number
  readonly yUm: number
}

/** Corners of every core, and of the 1/e box of a diffused one: lower left, lower right, upper right, upper left. */
export function coreCorners({ cores }: Pick<CrossSectionEntry, 'cores'>): readonly (readonly Point[])[] {
  return cores.map((core) => {
    const [x, bottom] = [coreValue(core.x, 'corePosition'), coreValue(core.bottom, 'corePosition')]
    const [width, height] = [coreValue(core.width, 'guideSize'), coreValue(core.height, 'guideSize')]
    const walls = (core.profile ?? 'uniform') === 'uniform'
    const lean = walls ? height / 2 / Math.tan(coreValue(core.sidewall, 'sidewallAngle')) : 0
    const [lower, upper] = [width / 2 + lean, Math.max(0, width / 2 - lean)]
    return [
      { xUm: x - lower, yUm: bottom },
      { xUm: x + lower, yUm: bottom },
      { xUm: x + upper, yUm: bottom + height },
      { xUm: x - upper, yUm: bottom + height },
    ]
  })
}

/** Heights of the undersides of the layers and of the top. */
export function layerHeights({ layers }: Pick<CrossSectionEntry, 'layers'>): readonly number[] {
  const heights = [0]
  for (const layer of layers) {
    heights.push((heights.at(-1) ?? 0) + coreValue(layer.thickness, 'layerThickness'))
  }
  return heights
}

export interface OutlineBox {
  readonly leftUm: number
  readonly rightUm: number
  readonly bottomUm: number
  readonly topUm: number
}

export function boxOf(points: readonly Point[]): OutlineBox {
  return {
    leftUm: Math.min(...points.map((point) => point.xUm)),
    rightUm: Math.max(...points.map((point) => point.xUm)),
    bottomUm: Math.min(...points.map((point) => point.yUm)),
    topUm: Math.max(...points.map((point) => point.yUm)),
  }
}

/** The box widened on all sides, then to a shape of so many times as wide as high. */
export function framed(box: OutlineBox, marginUm: number, aspect: number): OutlineBox {
  const [middleX, middleY] = [(box.leftUm + box.rightUm) / 2, (box.bottomUm + box.topUm) / 2]
  const height = Math.max(
    box.topUm - box.bottomUm + 2 * marginUm,
    (box.rightUm - box.leftUm + 2 * marginUm) / aspect,
  )
  return {
    leftUm: middleX - (height * aspect) / 2,
    rightUm: middleX + (height * aspect) / 2,
    bottomUm: middleY - height / 2,
    topUm: middleY + height / 2,
  }
}
