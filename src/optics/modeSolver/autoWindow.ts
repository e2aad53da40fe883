// A window for a mode that is not known yet: it is tried on a coarse grid, widened until the field has died out, then cut back.

import type { CrossSection } from './crossSection'
import { coarseMode, type ModeOptions } from './modeProblem'
import { coreBox, type ModeWindow, planGrid, widened } from './modeWindow'

export const COARSE = { x: 56, y: 56 } as const
const GREATEST_MARGIN_UM = 150
/** Amplitude relative to the peak at which the field counts as ended. */
const OVER = 1e-3

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

/**
 * The window in which the field is above OVER, or null where no mode is guided within the greatest margin. It reaches no
 * lower than `floorUm`, where the field is set to zero.
 */
export function autoWindow(
  section: CrossSection,
  options: ModeOptions,
  mirrorUm: number | null,
  floorUm: number,
): ModeWindow | null {
  const box = coreBox(section)
  let margin = Math.max(2 * options.wavelengthUm, (box.topUm - box.bottomUm) / 2)
  for (; margin < 2 * GREATEST_MARGIN_UM; margin *= 2) {
    const wide = widened(box, Math.min(margin, GREATEST_MARGIN_UM))
    const window = { ...wide, bottomUm: Math.max(floorUm, wide.bottomUm) }
    const walled = window.bottomUm === floorUm
    const plan = planGrid(section, window, options.wavelengthUm, COARSE, 0, mirrorUm)
    const found = coarseMode({ section, options, plan, walled })
    if (found === null) continue
    const [leading] = found.mode.components
    if (leading === undefined) continue
    const { axes, field } = leading
    const { x, y } = axes
    const nx = x.centres.length
    let [left, right, bottom, top] = [nx, 0, y.centres.length, 0]
    for (let i = 0; i < field.length; i++) {
      if (Math.abs(field[i] as number) < OVER) continue
      const ix = i % nx
      const iy = (i - ix) / nx
      left = Math.min(left, ix)
      right = Math.max(right, ix)
      bottom = Math.min(bottom, iy)
      top = Math.max(top, iy)
    }
    const cut =
      right > nx - 3 ||
      (bottom < 2 && !walled) ||
      top > y.centres.length - 3 ||
      (mirrorUm === null && left < 2)
    if (cut && margin < GREATEST_MARGIN_UM) continue
    const rightUm = Math.max(box.rightUm, x.faces[Math.min(x.faces.length - 1, right + 2)] as number)
    const leftUm =
      mirrorUm === null
        ? Math.min(box.leftUm, x.faces[Math.max(0, left - 1)] as number)
        : 2 * mirrorUm - rightUm
    return {
      leftUm,
      rightUm,
      bottomUm:
        walled && bottom < 2 ? floorUm : Math.min(box.bottomUm, y.faces[Math.max(0, bottom - 1)] as number),
      topUm: Math.max(box.topUm, y.faces[Math.min(y.faces.length - 1, top + 2)] as number),
    }
  }
  return null
}
