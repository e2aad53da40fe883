// The part of a cross-section that is solved: the edges that need fine cells, and borders far enough away for the field to die out.

import { type CrossSection, greatestHalfWidth, stackHeights, stackIndexAt } from './crossSection'
import type { AxisPlan, FineEdge, GridAxis } from './grid'
import { axisOf, planAxis } from './grid'

export interface ModeWindow {
  readonly leftUm: number
  readonly rightUm: number
  readonly bottomUm: number
  readonly topUm: number
}

/** The box around all cores. */
export function coreBox({ cores }: CrossSection): ModeWindow {
  return {
    leftUm: Math.min(...cores.map((core) => core.xUm - greatestHalfWidth(core))),
    rightUm: Math.max(...cores.map((core) => core.xUm + greatestHalfWidth(core))),
    bottomUm: Math.min(...cores.map((core) => core.bottomUm)),
    topUm: Math.max(...cores.map((core) => core.bottomUm + core.heightUm)),
  }
}

export function widened(box: ModeWindow, byUm: number): ModeWindow {
  return {
    leftUm: box.leftUm - byUm,
    rightUm: box.rightUm + byUm,
    bottomUm: box.bottomUm - byUm,
    topUm: box.topUm + byUm,
  }
}

export interface GridPlan {
  readonly x: AxisPlan
  readonly y: AxisPlan
  /** Position of the mirror axis; `x` then begins there and covers the right half. */
  readonly mirrorUm: number | null
}

export interface CellCounts {
  readonly x: number
  readonly y: number
}

const FINE_SHARE = 8

/** The finest cells at a step of permittivity: an eighth of the shortest transverse wavelength that it can cause. */
function stepSize(wavelengthUm: number, index: number, around: number): number {
  return wavelengthUm / (FINE_SHARE * Math.sqrt(Math.max(1e-6, Math.abs(index ** 2 - around ** 2))))
}

/** Edges between unlike layers. */
function layerEdges(section: CrossSection, wavelengthUm: number): readonly FineEdge[] {
  return stackHeights(section).flatMap((atUm) => {
    const [below, above] = [stackIndexAt(section, atUm - 1e-6), stackIndexAt(section, atUm + 1e-6)]
    return below === above ? [] : [{ atUm, sizeUm: stepSize(wavelengthUm, below, above) }]
  })
}

/** `doublings` grids are prepared, each twice as fine as the one before; the finest has about `cells` cells. */
export function planGrid(
  section: CrossSection,
  window: ModeWindow,
  wavelengthUm: number,
  cells: CellCounts,
  doublings: number,
  mirrorUm: number | null,
): GridPlan {
  const xEdges: FineEdge[] = []
  const yEdges: FineEdge[] = [...layerEdges(section, wavelengthUm)]
  for (const core of section.cores) {
    const half = greatestHalfWidth(core)
    const around = stackIndexAt(section, core.bottomUm + core.heightUm / 2)
    const step = stepSize(wavelengthUm, core.index, around)
    const xSize = Math.min((2 * half) / FINE_SHARE, step)
    const ySize = Math.min(core.heightUm / FINE_SHARE, step)
    xEdges.push({ atUm: core.xUm - half, sizeUm: xSize }, { atUm: core.xUm + half, sizeUm: xSize })
    yEdges.push(
      { atUm: core.bottomUm, sizeUm: ySize },
      { atUm: core.bottomUm + core.heightUm, sizeUm: ySize },
    )
  }
  const left = mirrorUm ?? window.leftUm
  const within = (from: number, to: number, positions: readonly number[]) => [
    from,
    ...positions.filter((position) => position > from && position < to),
    to,
  ]
  const xBreaks = within(
    left,
    window.rightUm,
    xEdges.map((edge) => edge.atUm),
  )
  const yBreaks = within(window.bottomUm, window.topUm, [
    ...yEdges.map((edge) => edge.atUm),
    ...stackHeights(section),
  ])
  return {
    x: planAxis(xBreaks, xEdges, mirrorUm === null ? cells.x : cells.x / 2, doublings),
    y: planAxis(yBreaks, yEdges, cells.y, doublings),
    mirrorUm,
  }
}

export function gridOf(plan: GridPlan, doublings: number): { readonly x: GridAxis; readonly y: GridAxis } {
  return { x: axisOf(plan.x, doublings), y: axisOf(plan.y, doublings) }
}
