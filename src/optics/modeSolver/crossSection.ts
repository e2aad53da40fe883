// The cross-section of a waveguide: a stack of layers with cores in it. x runs along the chip surface, y away from the
// substrate, y = 0 at the substrate's surface. Where cores overlap, the later one takes precedence.

import { InputError, requireFinite, requireInRange } from '../../numerics/inputError'
import { plainText, significantText } from '../../numerics/numberText'

interface Layer {
  readonly thicknessUm: number
  readonly index: number
}

/** A trapezoid: its width is that at half height, its sidewalls rise at `sidewallRad` (pi/2: vertical, less: narrower at the top). */
interface TrapezoidCore {
  readonly shape: 'trapezoid'
  /** Middle of the core. */
  readonly xUm: number
  /** Height of the bottom of the core above the substrate. */
  readonly bottomUm: number
  readonly widthUm: number
  readonly heightUm: number
  readonly sidewallRad: number
  readonly index: number
}

interface EllipseCore {
  readonly shape: 'ellipse'
  readonly xUm: number
  readonly bottomUm: number
  readonly widthUm: number
  readonly heightUm: number
  readonly index: number
}

/**
 * A core without walls: its index is that of the stack plus a share, at most 1, of the step at its peak. Its box is where the grid
 * is fine; beyond `reach` the share is treated as 0. `share` is symmetric about xUm unless the core is marked as skew.
 */
export interface GradedCore {
  readonly shape: 'graded'
  readonly xUm: number
  readonly bottomUm: number
  readonly widthUm: number
  readonly heightUm: number
  /** At the peak. */
  readonly index: number
  readonly share: (xUm: number, yUm: number) => number
  readonly isSkew?: boolean
  readonly reach: {
    readonly leftUm: number
    readonly rightUm: number
    readonly bottomUm: number
    readonly topUm: number
  }
}

export type Core = TrapezoidCore | EllipseCore | GradedCore

export interface CrossSection {
  readonly substrateIndex: number
  /** From the substrate upwards. */
  readonly layers: readonly Layer[]
  readonly coverIndex: number
  readonly cores: readonly Core[]
}

export const CROSS_SECTION_LIMITS = {
  index: [1, 6],
  thicknessUm: [0.001, 500],
  sizeUm: [0.01, 100],
  positionUm: [-200, 500],
  sidewallRad: [Math.PI / 4, (3 * Math.PI) / 4],
  layers: 12,
  cores: 12,
} as const

/** Half the width at a height above the substrate; 0 or less outside the core. */
export function halfWidthAt(core: Core, yUm: number): number {
  const above = yUm - core.bottomUm
  if (above < 0 || above > core.heightUm) return 0
  const fromMiddle = above - core.heightUm / 2
  if (core.shape === 'ellipse') {
    const share = (2 * fromMiddle) / core.heightUm
    return (core.widthUm / 2) * Math.sqrt(Math.max(0, 1 - share * share))
  }
  if (core.shape === 'graded') return core.widthUm / 2
  return core.widthUm / 2 - fromMiddle / Math.tan(core.sidewallRad)
}

/** Half the greatest width. */
export function greatestHalfWidth(core: Core): number {
  if (core.shape !== 'trapezoid') return core.widthUm / 2
  return core.widthUm / 2 + Math.abs(core.heightUm / 2 / Math.tan(core.sidewallRad))
}

export const isUpright = (core: Core): boolean =>
  core.shape === 'trapezoid' && Math.abs(core.sidewallRad - Math.PI / 2) < 1e-9

/** Index of the stack, without its cores, at a height. */
export function stackIndexAt({ substrateIndex, layers, coverIndex }: CrossSection, yUm: number): number {
  if (yUm < 0) return substrateIndex
  let top = 0
  for (const { thicknessUm, index } of layers) {
    top += thicknessUm
    if (yUm < top) return index
  }
  return coverIndex
}

/** Heights at which the stack changes, from the substrate's surface upwards. */
export function stackHeights({ layers }: CrossSection): readonly number[] {
  const heights = [0]
  for (const { thicknessUm } of layers) heights.push((heights.at(-1) ?? 0) + thicknessUm)
  return heights
}

/** Indices closer than this count as one material. */
const SAME_INDEX = 1e-6

/**
 * Height at which the cladding above the cores ends, um: where the index first changes above the highest core. Null where
 * it continues without end, because the top cladding lies on the cores or has the index of the layers below it.
 */
export function claddingEndUm(section: CrossSection): number | null {
  const coreTopUm = Math.max(...section.cores.map(({ bottomUm, heightUm }) => bottomUm + heightUm))
  const cladding = stackIndexAt(section, coreTopUm)
  const end = stackHeights(section).find(
    (heightUm) => heightUm > coreTopUm && Math.abs(stackIndexAt(section, heightUm) - cladding) > SAME_INDEX,
  )
  return end ?? null
}

/** Position of the axis of left-right mirror symmetry, or null where there is none. */
export function mirrorAxis({ cores }: CrossSection): number | null {
  const left = Math.min(...cores.map((core) => core.xUm - greatestHalfWidth(core)))
  const right = Math.max(...cores.map((core) => core.xUm + greatestHalfWidth(core)))
  const axis = (left + right) / 2
  const near = (a: number, b: number) => Math.abs(a - b) < 1e-9
  // The order of the cores decides where they overlap, so a pair of mirror images must either overlap no other core or be a single core.
  const paired = cores.every((core) =>
    cores.some(
      (other) =>
        near(core.xUm + other.xUm, 2 * axis) &&
        core.shape === other.shape &&
        near(core.bottomUm, other.bottomUm) &&
        near(core.widthUm, other.widthUm) &&
        near(core.heightUm, other.heightUm) &&
        near(core.index, other.index) &&
        (core.shape !== 'trapezoid' ||
          other.shape !== 'trapezoid' ||
          near(core.sidewallRad, other.sidewallRad)) &&
        (core.shape !== 'graded' || (core.isSkew !== true && near(core.xUm, axis))),
    ),
  )
  return paired && (cores.every((core) => near(core.xUm, axis)) || !overlapping(cores)) ? axis : null
}

function overlapping(cores: readonly Core[]): boolean {
  const apart = (a: Core, b: Core) =>
    Math.abs(a.xUm - b.xUm) >= greatestHalfWidth(a) + greatestHalfWidth(b) ||
    a.bottomUm >= b.bottomUm + b.heightUm ||
    b.bottomUm >= a.bottomUm + a.heightUm
  return cores.some((core, at) => cores.slice(at + 1).some((other) => !apart(core, other)))
}

/** Returns the cross-section if it can be built; throws InputError naming the field at fault. */
export function requireCrossSection(section: CrossSection): CrossSection {
  const { index, thicknessUm, sizeUm, positionUm, sidewallRad } = CROSS_SECTION_LIMITS
  requireInRange('index of the substrate', section.substrateIndex, ...index)
  requireInRange('index of the top cladding', section.coverIndex, ...index)
  requireCount('layers', section.layers.length, 0, CROSS_SECTION_LIMITS.layers)
  requireCount('cores', section.cores.length, 1, CROSS_SECTION_LIMITS.cores)
  section.layers.forEach((layer, at) => {
    requireInRange(`index of layer ${at + 1}`, layer.index, ...index)
    requireInRange(`thickness of layer ${at + 1} in µm`, layer.thicknessUm, ...thicknessUm)
  })
  section.cores.forEach((core, at) => {
    const name = `core ${at + 1}`
    requireInRange(`index of ${name}`, core.index, ...index)
    requireInRange(`width of ${name} in µm`, core.widthUm, ...sizeUm)
    requireInRange(`height of ${name} in µm`, core.heightUm, ...sizeUm)
    requireInRange(`centre x of ${name} in µm`, core.xUm, ...positionUm)
    requireInRange(`lower edge of ${name} in µm`, core.bottomUm, ...positionUm)
    if (core.shape !== 'trapezoid') return
    requireInRange(`sidewall angle of ${name} in rad`, core.sidewallRad, ...sidewallRad)
    const narrowest = core.widthUm / 2 - Math.abs(core.heightUm / 2 / Math.tan(core.sidewallRad))
    if (narrowest < 0) {
      const least = 2 * Math.abs(core.heightUm / 2 / Math.tan(core.sidewallRad))
      throw new InputError(
        `width of ${name}`,
        `${plainText(core.widthUm, 4)} µm`,
        `at least ${significantText(least, 4)} µm: its sidewalls would cross below its top at this height and angle`,
      )
    }
  })
  const everywhere = section.cores.every((core) => {
    const around = stackIndexAt(section, core.bottomUm + core.heightUm / 2)
    return core.index <= around
  })
  if (everywhere) {
    const core = section.cores[0]
    const around = core === undefined ? 1 : stackIndexAt(section, core.bottomUm + core.heightUm / 2)
    throw new InputError(
      'index of core 1',
      core?.index,
      `above ${significantText(around, 6)}, the index of its surroundings`,
    )
  }
  return section
}

function requireCount(field: string, count: number, least: number, greatest: number): void {
  requireFinite(field, count)
  if (count < least || count > greatest)
    throw new InputError(`number of ${field}`, count, `${least} to ${greatest}`)
}
