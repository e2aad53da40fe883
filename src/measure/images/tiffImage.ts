// Camera images in TIFF files: the decoder's pixels; files that it would misread are corrected first or refused.
// Source: TIFF Revision 6.0 (1992).

import { decode as decodeTiff } from 'tiff'
import { InputError } from '../../numerics/inputError'
import { greyOf } from './greyPixels'
import { type PlainImage, WHY_NO_JPEG } from './image'
import { TIFF_TAG, tiffDirectory, tiffNumbers } from './tiffDirectory'
import { withoutPackBits } from './tiffPackBits'
import { checkTiffHeader } from './tiffSize'

/** The old and the present way of putting a JPEG inside. */
const JPEG_COMPRESSIONS = new Set([6, 7])
const WHITE_IS_ZERO = 0
const SIGNED_SAMPLES = 2
const SEPARATE_PLANES = 2
const HORIZONTAL_DIFFERENCES = 2

/** 8 and 16 bit, 32 and 64 bit floating point; not compressed, LZW, deflate or PackBits. `name` is for messages only. */
export function readTiff(bytes: Uint8Array, name: string): PlainImage {
  checkTiffHeader(bytes, name)
  refuseUnreadable(bytes, name)
  const page = decodeTiff(withoutPackBits(bytes), { pages: [0] })[0]
  if (!page) throw new InputError('TIFF', 'a file without pages', 'a TIFF with at least one page')
  const { width, height, bitsPerSample, samplesPerPixel, data } = page
  const grey = greyOf(data, width * height, samplesPerPixel)
  const isFloat = data instanceof Float32Array || data instanceof Float64Array
  const fullScale = isFloat ? Infinity : 2 ** bitsPerSample - 1
  if (page.type === WHITE_IS_ZERO) grey.notes.push('white-is-zero image inverted')
  const notes = page.imageDescription ? [page.imageDescription, ...grey.notes] : grey.notes
  return { pixels: grey.pixels, width, height, bitDepth: bitsPerSample, fullScale, format: 'tiff', notes }
}

/** Files that the decoder would misread without an error. */
function refuseUnreadable(bytes: Uint8Array, name: string): void {
  const directory = tiffDirectory(bytes)
  const first = (tag: number) => tiffNumbers(bytes, directory, tag)[0] ?? 1
  if (JPEG_COMPRESSIONS.has(first(TIFF_TAG.compression))) {
    throw new InputError(
      name,
      'a TIFF with JPEG compression',
      `a TIFF with lossless compression: ${WHY_NO_JPEG}`,
    )
  }
  if (first(TIFF_TAG.sampleFormat) === SIGNED_SAMPLES) {
    throw new InputError(
      name,
      'a TIFF of signed integers',
      'a TIFF of unsigned integers or floating-point numbers',
    )
  }
  if (first(TIFF_TAG.planes) === SEPARATE_PLANES && first(TIFF_TAG.samples) > 1) {
    throw new InputError(name, 'a TIFF with separate colour planes', 'a grey TIFF')
  }
  const isTiled = tiffNumbers(bytes, directory, TIFF_TAG.tileOffsets).length > 0
  if (isTiled && (first(TIFF_TAG.predictor) === HORIZONTAL_DIFFERENCES || first(TIFF_TAG.samples) > 1)) {
    throw new InputError(name, 'a TIFF in tiles with a predictor or with colours', 'a grey TIFF in strips')
  }
}
