// A cross-section cut into thin horizontal slices, each made of strips with vertical walls: exact for rectangles, and a fine
// staircase for sloped and curved walls. All averages over cells are computed from these slices.

import {
  type CrossSection,
  type GradedCore,
  halfWidthAt,
  isUpright,
  stackHeights,
  stackIndexAt,
} from './crossSection'

export interface Slice {
  readonly bottomUm: number
  readonly topUm: number
  /** Positions at which the permittivity changes, left to right. */
  readonly breaks: readonly number[]
  /** Permittivities: left of all breaks, between them, right of them. */
  readonly values: readonly number[]
}

/** Slices of a row of cells that a sloped or curved wall crosses. */
const STAIRS = 16
/** Slices of a row in a graded core, whose index hardly changes within the row; and strips across the core. */
const GRADED_STAIRS = 4
const GRADED_STRIPS = 240

function heightsOf(section: CrossSection, faces: Float64Array): readonly number[] {
  const heights = [...faces, ...stackHeights(section)]
  for (const core of section.cores) {
    const top = core.bottomUm + core.heightUm
    heights.push(core.bottomUm, top)
    if (isUpright(core)) continue
    const graded = core.shape === 'graded'
    const [low, high] = graded ? [core.reach.bottomUm, core.reach.topUm] : [core.bottomUm, top]
    const stairs = graded ? GRADED_STAIRS : STAIRS
    for (let j = 0; j + 1 < faces.length; j++) {
      const from = Math.max(low, faces[j] as number)
      const to = Math.min(high, faces[j + 1] as number)
      for (let i = 1; to > from && i < stairs; i++) heights.push(from + ((to - from) * i) / stairs)
    }
  }
  const [least, greatest] = [faces[0] as number, faces.at(-1) ?? 0]
  const inside = heights.filter((height) => height >= least && height <= greatest).sort((a, b) => a - b)
  return inside.filter((height, at) => at === 0 || height - (inside[at - 1] as number) > 1e-9)
}

interface Strip {
  readonly from: number
  readonly to: number
  readonly index: number
}

/** A graded core at a height, its index taken in the middle of each strip. */
function gradedStrips(core: GradedCore, section: CrossSection, y: number): readonly Strip[] {
  const { leftUm, rightUm, bottomUm, topUm } = core.reach
  if (y < bottomUm || y > topUm) return []
  const around = stackIndexAt(section, y)
  const step = core.index - stackIndexAt(section, core.bottomUm + core.heightUm / 2)
  const width = (rightUm - leftUm) / GRADED_STRIPS
  return Array.from({ length: GRADED_STRIPS }, (_, i) => ({
    from: leftUm + i * width,
    to: leftUm + (i + 1) * width,
    index: around + step * core.share(leftUm + (i + 0.5) * width, y),
  }))
}

function sliceAt(section: CrossSection, bottomUm: number, topUm: number): Slice {
  const y = (bottomUm + topUm) / 2
  const strips: readonly Strip[] = section.cores.flatMap((core) => {
    if (core.shape === 'graded') return gradedStrips(core, section, y)
    const half = halfWidthAt(core, y)
    return half > 0 ? [{ from: core.xUm - half, to: core.xUm + half, index: core.index }] : []
  })
  const around = stackIndexAt(section, y)
  const breaks = [...new Set(strips.flatMap(({ from, to }) => [from, to]))].sort((a, b) => a - b)
  const positions = new Map(breaks.map((each, at) => [each, at + 1]))
  const values = new Array<number>(breaks.length + 1).fill(around ** 2)
  for (const { from, to, index } of strips) values.fill(index ** 2, positions.get(from), positions.get(to))
  return { bottomUm, topUm, breaks, values }
}

/** Slices from the lowest to the highest face; every face, layer and flat edge of a core lies between two of them. */
export function slicesOf(section: CrossSection, yFaces: Float64Array): readonly Slice[] {
  const heights = heightsOf(section, yFaces)
  return heights.slice(1).map((top, at) => sliceAt(section, heights[at] as number, top))
}

/** Mean permittivity of a slice between two positions. */
export function sliceMean({ breaks, values }: Slice, fromUm: number, toUm: number): number {
  let sum = 0
  let left = fromUm
  for (let at = 0; at <= breaks.length && left < toUm; at++) {
    const right = Math.min(toUm, breaks[at] ?? Number.POSITIVE_INFINITY)
    if (right <= left) continue
    sum += (right - left) * (values[at] as number)
    left = right
  }
  return sum / (toUm - fromUm)
}

/** Several slices one above the other as one, with the arithmetic mean over their heights at every place. */
export function merged(slices: readonly Slice[]): Slice {
  const bottomUm = slices[0]?.bottomUm ?? 0
  const topUm = slices.at(-1)?.topUm ?? 0
  const breaks = [...new Set(slices.flatMap((slice) => slice.breaks))].sort((a, b) => a - b)
  const values = new Array<number>(breaks.length + 1).fill(0)
  for (const slice of slices) {
    const height = slice.topUm - slice.bottomUm
    let own = 0
    for (let at = 0; at <= breaks.length; at++) {
      values[at] = (values[at] as number) + height * (slice.values[own] as number)
      if (breaks[at] === slice.breaks[own]) own++
    }
  }
  return { bottomUm, topUm, breaks, values: values.map((sum) => sum / (topUm - bottomUm)) }
}
