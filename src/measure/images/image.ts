// A camera image as plain numbers.

export interface BenchImage {
  /** Row-major, first row first, in counts. */
  readonly pixels: Float64Array
  readonly width: number
  readonly height: number
  /** Bits that a count may use. */
  readonly bitDepth: number
  /** Highest count that the file format allows. */
  readonly fullScale: number
  /** Pixel pitch at the object, where the file's comments give it. */
  readonly pixelUm?: number
  readonly saturatedCount: number
  readonly format: 'pgm' | 'png' | 'tiff'
  readonly notes: readonly string[]
}

/** As a decoder gives it, before its comments are searched and its pixels looked at. */
export type PlainImage = Omit<BenchImage, 'pixelUm' | 'saturatedCount'>

export const WHY_NO_JPEG = 'JPEG compression and its gamma distort the widths'

/** Fewer pixels at the highest count are a peak. */
const PLATEAU = 4
/** A smooth peak spreads its pixels evenly over the counts below it; a clipped one accumulates them at the highest. */
const HEAP = 4
const COUNTS_BELOW = 4

/**
 * Pixels at the detector's limit: all at full scale, or a heap of them at the highest count below it (a 12-bit camera
 * in a 16-bit file stops at 4095).
 */
export function saturatedPixels(pixels: ArrayLike<number>, fullScale: number): number {
  // The highest counts that occur, highest first, and how many pixels have each.
  const values: number[] = []
  const pixelsAt: number[] = []
  let lowest = -Infinity
  for (let i = 0; i < pixels.length; i++) {
    const value = pixels[i] ?? 0
    if (value < lowest) continue
    const index = values.findIndex((each) => each <= value)
    if (index >= 0 && values[index] === value) pixelsAt[index] = (pixelsAt[index] ?? 0) + 1
    else {
      values.splice(index < 0 ? values.length : index, 0, value)
      pixelsAt.splice(index < 0 ? pixelsAt.length : index, 0, 1)
      values.length = Math.min(values.length, COUNTS_BELOW + 1)
      pixelsAt.length = values.length
      if (values.length > COUNTS_BELOW) lowest = values.at(-1) ?? -Infinity
    }
  }
  const [highest = 0] = values
  const [count = 0, ...below] = pixelsAt
  if (highest >= fullScale) return count
  const usual = Math.max(...below, 1)
  return count >= PLATEAU && count > HEAP * usual && highest > 0 ? count : 0
}

/** "pixel pitch 0.25 um", "pixel_um = 0.25", "0.25 um/px" in a comment. */
export function pixelScaleUm(notes: readonly string[]): number | undefined {
  const unit = '(nm|um|µm|μm|mm)'
  const number = '(?<![\\d.,])(\\d+(?:[.,]\\d+)?|[.,]\\d+)'
  const named = new RegExp(
    `pix(?:el)?s?[^0-9]{0,60}?(?:[_ (\\[]${unit})?[^0-9]{0,12}${number}\\s*${unit}?`,
    'i',
  )
  const perPixel = new RegExp(`${number}\\s*${unit}\\s*(?:/|per)\\s*p(?:ix(?:el)?|x)`, 'i')
  const factor = (name: string | undefined) =>
    name === undefined ? 1 : /nm/i.test(name) ? 1e-3 : /mm/i.test(name) ? 1e3 : 1
  for (const note of notes) {
    const per = perPixel.exec(note)
    if (per?.[1]) return Number(per[1].replace(',', '.')) * factor(per[2])
    const match = named.exec(note)
    if (match?.[2] && (match[1] || match[3]))
      return Number(match[2].replace(',', '.')) * factor(match[3] ?? match[1])
  }
  return undefined
}
