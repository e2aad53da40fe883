// From micrometres to pixels and back. z runs to the right, the transverse axis upwards.

export interface Scale {
  readonly pxPerUm: number
  /** Middle of the picture, pixels. */
  readonly middleXPx: number
  readonly middleYPx: number
  /** The coordinate there, micrometres. */
  readonly centreZUm: number
}

/** What both views show: the same scale and the same middle. */
export interface ViewFrame {
  readonly pxPerUm: number
  readonly centreZUm: number
}

const ZOOM_RANGE_PX_PER_UM = [0.05, 400] as const

export const zPx = (scale: Scale, zUm: number): number =>
  scale.middleXPx + (zUm - scale.centreZUm) * scale.pxPerUm

export const transversePx = (scale: Scale, vUm: number): number => scale.middleYPx - vUm * scale.pxPerUm

function clampZoom(pxPerUm: number): number {
  const [least, greatest] = ZOOM_RANGE_PX_PER_UM
  return Math.min(greatest, Math.max(least, pxPerUm))
}

/** The largest scale at which a length and a height fit into a picture. */
export function fittedPxPerUm(lengthUm: number, heightUm: number, widthPx: number, heightPx: number): number {
  return clampZoom(Math.min(widthPx / lengthUm, heightPx / heightUm))
}

/** The frame zoomed by a factor, with the place `awayPx` to the right of the middle staying where it is. */
export function zoomed(frame: ViewFrame, factor: number, awayPx = 0): ViewFrame {
  const pxPerUm = clampZoom(frame.pxPerUm * factor)
  return { pxPerUm, centreZUm: frame.centreZUm + awayPx / frame.pxPerUm - awayPx / pxPerUm }
}

/** A round length, 1, 2 or 5 times a power of ten, that is at most `mostPx` long on screen. */
export function scaleBarUm(pxPerUm: number, mostPx: number): number {
  const most = mostPx / pxPerUm
  const decade = 10 ** Math.floor(Math.log10(most))
  const factor = [5, 2, 1].find((each) => each * decade <= most) ?? 1
  return factor * decade
}
