// What the header of an image promises, looked at before a decoder takes memory for it.
// Sources: PNG (Third Edition), 11.2.1: IHDR is the first chunk, two 32-bit big-endian sizes first. TIFF Revision 6.0 (1992),
// section 8: ImageWidth and ImageLength are one SHORT or LONG each.

import { READING_LIMITS } from '../../model/words/measurement'
import { InputError } from '../../numerics/inputError'
import { TIFF_TAG, tiffDirectory, tiffNumbers } from './tiffDirectory'

/** InputError for a size that no camera has, or that would take more memory than there may be. */
export function requireImageSize(name: string, width: number, height: number): void {
  const whole = Number.isInteger(width) && Number.isInteger(height) && width > 0 && height > 0
  if (whole && width * height <= READING_LIMITS.imagePixels) return
  const most = `at most ${READING_LIMITS.imagePixels / 1e6} million pixels`
  throw new InputError(name, `an image of ${width} × ${height} pixels`, `an image of ${most}`)
}

const PNG_SIZE_AT = 16

/** InputError for a PNG whose header promises too much or is not there. */
export function checkPngHeader(bytes: Uint8Array, name: string): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < PNG_SIZE_AT + 8) throw new InputError(name, 'a PNG without a header', 'a whole PNG file')
  requireImageSize(name, view.getUint32(PNG_SIZE_AT), view.getUint32(PNG_SIZE_AT + 4))
}

/** Bytes of one value of each type, in the order of their numbers from 1. */
const TIFF_BYTES = [1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8]
const MOST_TAGS = 1000

/** InputError for a TIFF whose tags promise too much: a size, a list that is longer than the file, lists upon lists. */
export function checkTiffHeader(bytes: Uint8Array, name: string): void {
  const directory = tiffDirectory(bytes)
  const listed = directory.entries.reduce(
    (sum, { type, count }) => sum + count * (TIFF_BYTES[type - 1] ?? 0),
    0,
  )
  if (directory.entries.length > MOST_TAGS || listed > bytes.length) {
    throw new InputError(name, `a TIFF with ${listed} bytes of tags`, `at most the file's ${bytes.length}`)
  }
  const only = (tag: number) => {
    const numbers = tiffNumbers(bytes, directory, tag)
    return numbers.length === 1 ? (numbers[0] ?? 0) : 0
  }
  requireImageSize(name, only(TIFF_TAG.width), only(TIFF_TAG.height))
}
