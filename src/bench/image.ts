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
  /** Pixel pitch at the object, where the file's comments tell it. */
  readonly pixelUm?: number
  readonly saturatedCount: number
  readonly format: 'pgm' | 'png' | 'tiff'
  readonly notes: readonly string[]
}

/** As few pixels at the highest count as a peak could have by chance. */
const PLATEAU = 4

/**
 * Pixels at the detector's limit: all at full scale, or a plateau of four or more at the highest count below it
 * (a 12-bit camera in a 16-bit file stops at 4095).
 */
export function saturatedPixels(pixels: ArrayLike<number>, fullScale: number): number {
  let highest = -Infinity
  let count = 0
  for (let i = 0; i < pixels.length; i++) {
    const value = pixels[i] ?? 0
    if (value > highest) [highest, count] = [value, 1]
    else if (value === highest) count++
  }
  if (highest >= fullScale) return count
  return count >= PLATEAU && highest > 0 ? count : 0
}

/** "pixel pitch 0.25 um", "pixel_um = 0.25", "0.25 um/px" in a comment. */
export function pixelScaleUm(notes: readonly string[]): number | undefined {
  const unit = '(nm|um|µm|μm|mm)'
  const named = new RegExp(
    `pix(?:el)?s?[^0-9]*?(?:[_ (\\[]${unit})?[^0-9]{0,12}(\\d*[.,]?\\d+)\\s*${unit}?`,
    'i',
  )
  const perPixel = new RegExp(`(\\d*[.,]?\\d+)\\s*${unit}\\s*(?:/|per)\\s*pix?(?:el)?`, 'i')
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
