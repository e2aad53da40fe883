// A window for a mode that is not known yet: it is tried on a coarse grid, widened until the field has died out, then cut back.

import type { CrossSection } from './crossSection'
import type { GridAxes } from './interpolate'
import { type Component, leadingMode, type ModeOptions } from './modeProblem'
import { coreBox, type ModeWindow, planGrid, widened } from './modeWindow'

export const COARSE = { x: 56, y: 56 } as const
const GREATEST_MARGIN_UM = 150
/** Amplitude relative to the peak at which the field counts as ended. */
const OVER = 1e-3
/** Of a full-vector mode that only shows where its field ends. */
const ROUGH_RESIDUAL = 1e-5

/** Greatest amplitude in the outermost cells; those next to a wall, where the field is set to zero, are not counted. */
export function edgeLevel(field: Float64Array, nx: number, walled: boolean): number {
  const ny = field.length / nx
  let most = 0
  for (let ix = 0; ix < nx; ix++) {
    most = Math.max(
      most,
      walled ? 0 : Math.abs(field[ix] as number),
      Math.abs(field[(ny - 1) * nx + ix] as number),
    )
  }
  for (let iy = 0; iy < ny; iy++)
    most = Math.max(most, Math.abs(field[iy * nx] as number), Math.abs(field[iy * nx + nx - 1] as number))
  return most
}

/** Columns and rows, the outermost ones, in which the field is above OVER. */
interface Reach {
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
}

function reachOf({ axes, field }: Component): Reach {
  const nx = axes.x.centres.length
  let [left, right, bottom, top] = [nx, 0, axes.y.centres.length, 0]
  for (let i = 0; i < field.length; i++) {
    if (Math.abs(field[i] as number) < OVER) continue
    const ix = i % nx
    const iy = (i - ix) / nx
    left = Math.min(left, ix)
    right = Math.max(right, ix)
    bottom = Math.min(bottom, iy)
    top = Math.max(top, iy)
  }
  return { left, right, bottom, top }
}

/** A window, and beta^2 at which the search for its mode ended. */
export interface FoundWindow {
  readonly window: ModeWindow
  readonly foundAt?: number
}

/**
 * The window in which the field is above OVER, or null where no mode is guided within the greatest margin. It reaches no
 * lower than `floorUm`, where the field is set to zero. `near` is `foundAt` of a similar search.
 */
export function autoWindow(
  section: CrossSection,
  options: ModeOptions,
  mirrorUm: number | null,
  floorUm: number,
  near?: number,
): FoundWindow | null {
  const box = coreBox(section)
  let margin = Math.max(2 * options.wavelengthUm, (box.topUm - box.bottomUm) / 2)
  let foundAt = near
  for (; margin < 2 * GREATEST_MARGIN_UM; margin *= 2) {
    const wide = widened(box, Math.min(margin, GREATEST_MARGIN_UM))
    const window = { ...wide, bottomUm: Math.max(floorUm, wide.bottomUm) }
    const walled = window.bottomUm === floorUm
    const plan = planGrid(section, window, options.wavelengthUm, COARSE, 0, mirrorUm)
    const found = leadingMode({ section, options, plan, walled }, foundAt)
    if (found === null) continue
    foundAt = found.foundAt
    const isCut = ({ left, right, bottom, top }: Reach, { x, y }: GridAxes) =>
      margin < GREATEST_MARGIN_UM &&
      (right > x.centres.length - 3 ||
        (bottom < 2 && !walled) ||
        top > y.centres.length - 3 ||
        (mirrorUm === null && left < 2))
    // The whole mode reaches further than its leading component alone.
    if (isCut(reachOf(found.leading), found.leading.axes)) continue
    const component = found.whole(ROUGH_RESIDUAL)?.components[0]
    if (component === undefined) continue
    const { x, y } = component.axes
    const reach = reachOf(component)
    if (isCut(reach, component.axes)) continue
    const { left, right, bottom, top } = reach
    const rightUm = Math.max(box.rightUm, x.faces[Math.min(x.faces.length - 1, right + 2)] as number)
    const leftUm =
      mirrorUm === null
        ? Math.min(box.leftUm, x.faces[Math.max(0, left - 1)] as number)
        : 2 * mirrorUm - rightUm
    const bottomUm =
      walled && bottom < 2 ? floorUm : Math.min(box.bottomUm, y.faces[Math.max(0, bottom - 1)] as number)
    const topUm = Math.max(box.topUm, y.faces[Math.min(y.faces.length - 1, top + 2)] as number)
    return { window: { leftUm, rightUm, bottomUm, topUm }, foundAt }
  }
  return null
}
