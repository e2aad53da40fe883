// Second moments of a beam image inside an aperture that follows the beam.
// Source: ISO 11146-1:2021 (moments about the centroid, aperture three beam widths long, iterated) and ISO/TR 11146-3
// (background from the part of the image without beam), from memory; formulas as quoted in open texts.

export interface ImageView {
  readonly pixels: ArrayLike<number>
  readonly width: number
  readonly height: number
}

/** In pixels; y runs down the rows. Moments are ⟨x²⟩, ⟨y²⟩, ⟨xy⟩ about the centroid. */
export interface Moments {
  readonly x: number
  readonly y: number
  readonly xx: number
  readonly yy: number
  readonly xy: number
  readonly sum: number
}

interface PrincipalWidths {
  /** D4σ diameters, major first. */
  readonly major: number
  readonly minor: number
  /** From x towards y, in (−π/2, π/2]. */
  readonly azimuthRad: number
}

/**
 * ISO 11146-1: d = 2√2 {⟨x²⟩ + ⟨y²⟩ ± [(⟨x²⟩ − ⟨y²⟩)² + 4⟨xy⟩²]^½}^½, azimuth of the major axis. A moment that noise has
 * made negative gives width 0.
 */
export function principalWidths(xx: number, yy: number, xy: number): PrincipalWidths {
  const split = Math.hypot(xx - yy, 2 * xy)
  return {
    major: 2 * Math.SQRT2 * Math.sqrt(Math.max(0, xx + yy + split)),
    minor: 2 * Math.SQRT2 * Math.sqrt(Math.max(0, xx + yy - split)),
    azimuthRad: Math.atan2(2 * xy, xx - yy) / 2,
  }
}

/** Moments over the rectangle centred on `about`, turned with the beam, `scale` beam widths long on each axis. */
export function momentsInAperture(
  image: ImageView,
  background: number,
  about: Moments,
  scale: number,
): Moments {
  const { pixels, width, height } = image
  const axes = principalWidths(about.xx, about.yy, about.xy)
  const cos = Math.cos(axes.azimuthRad)
  const sin = Math.sin(axes.azimuthRad)
  const halfMajor = Math.max((scale * axes.major) / 2, 1.5)
  const halfMinor = Math.max((scale * axes.minor) / 2, 1.5)
  const reachX = Math.abs(cos) * halfMajor + Math.abs(sin) * halfMinor
  const reachY = Math.abs(sin) * halfMajor + Math.abs(cos) * halfMinor
  const fromX = Math.max(0, Math.ceil(about.x - reachX))
  const toX = Math.min(width - 1, Math.floor(about.x + reachX))
  const fromY = Math.max(0, Math.ceil(about.y - reachY))
  const toY = Math.min(height - 1, Math.floor(about.y + reachY))
  let sum = 0
  let sx = 0
  let sy = 0
  let sxx = 0
  let syy = 0
  let sxy = 0
  for (let y = fromY; y <= toY; y++) {
    const dy = y - about.y
    for (let x = fromX; x <= toX; x++) {
      const dx = x - about.x
      if (Math.abs(cos * dx + sin * dy) > halfMajor || Math.abs(cos * dy - sin * dx) > halfMinor) continue
      const value = (pixels[y * width + x] as number) - background
      sum += value
      sx += value * dx
      sy += value * dy
      sxx += value * dx * dx
      syy += value * dy * dy
      sxy += value * dx * dy
    }
  }
  const mx = sx / sum
  const my = sy / sum
  return {
    x: about.x + mx,
    y: about.y + my,
    xx: sxx / sum - mx * mx,
    yy: syy / sum - my * my,
    xy: sxy / sum - mx * my,
    sum,
  }
}

/** Whether the aperture's corners reach outside the image. */
export function apertureLeavesImage(image: ImageView, about: Moments, scale: number): boolean {
  const axes = principalWidths(about.xx, about.yy, about.xy)
  const cos = Math.abs(Math.cos(axes.azimuthRad))
  const sin = Math.abs(Math.sin(axes.azimuthRad))
  // The beam's own reach along the image's sides, not the turned rectangle's corners, which hold no light.
  const reachX = (scale / 2) * Math.hypot(cos * axes.major, sin * axes.minor)
  const reachY = (scale / 2) * Math.hypot(sin * axes.major, cos * axes.minor)
  return (
    about.x - reachX < 0 ||
    about.y - reachY < 0 ||
    about.x + reachX > image.width - 1 ||
    about.y + reachY > image.height - 1
  )
}
