// What the header of an image promises, looked at before a decoder takes memory for it.
// Sources: PNG (Third Edition), 11.2.1: IHDR is the first chunk, two 32-bit big-endian sizes first. TIFF Revision 6.0 (1992),
// section 8: ImageWidth and ImageLength are one SHORT or LONG each.

import { READING_LIMITS } from '../../model/words/limits'
import { InputError } from '../../numerics/inputError'
import { megabytesText } from '../../numerics/numberText'
import { inflatedLength } from './inflatedLength'
import { TIFF_TAG, tiffDirectory, tiffNumbers } from './tiffDirectory'

/** InputError for a size that no camera has, or that would take more memory than there may be. */
export function requireImageSize(name: string, width: number, height: number): void {
  const whole = Number.isInteger(width) && Number.isInteger(height) && width > 0 && height > 0
  if (whole && width * height <= READING_LIMITS.imagePixels) return
  const most = `at most ${READING_LIMITS.imagePixels / 1e6} million pixels`
  throw new InputError(name, `an image of ${width} × ${height} pixels`, `an image of ${most}`)
}

const PNG_SIZE_AT = 16
const PNG_CHUNKS_AT = 8
/** Section 11.2.1: samples of a pixel by colour type. */
const PNG_SAMPLES: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 }
/** More than any profile of a camera has. */
const MOST_PROFILE_BYTES = 4_000_000

/** The chunks of a PNG by type, as pieces of the file. */
function pngChunks(bytes: Uint8Array, type: string): readonly Uint8Array[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const found: Uint8Array[] = []
  for (let at = PNG_CHUNKS_AT; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at)
    if (String.fromCharCode(...bytes.subarray(at + 4, at + 8)) === type) {
      found.push(bytes.subarray(at + 8, at + 8 + length))
    }
    at += 12 + length
  }
  return found
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const [only] = pieces
  if (only !== undefined && pieces.length === 1) return only
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const piece of pieces) {
    whole.set(piece, at)
    at += piece.length
  }
  return whole
}

function requireInflated(name: string, what: string, stream: Uint8Array, most: number): void {
  if (inflatedLength(stream, most) <= most) return
  throw new InputError(
    name,
    `${what} that unfold to more than ${megabytesText(most)}`,
    'data of the size in the header',
  )
}

/** InputError for a PNG whose header promises too much or is not there, and for one that holds more than its header promises. */
export function checkPngHeader(bytes: Uint8Array, name: string): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < PNG_SIZE_AT + 13)
    throw new InputError(name, 'a PNG without a header', 'a whole PNG file')
  const [width, height] = [view.getUint32(PNG_SIZE_AT), view.getUint32(PNG_SIZE_AT + 4)]
  requireImageSize(name, width, height)
  const bitsPerPixel = view.getUint8(PNG_SIZE_AT + 8) * (PNG_SAMPLES[view.getUint8(PNG_SIZE_AT + 9)] ?? 4)
  // Section 7.2: a byte for the filter before every row. The passes of an interlaced image have fewer than twice the rows.
  const plain = height * (2 + Math.ceil((width * bitsPerPixel) / 8))
  requireInflated(name, 'image data', joined(pngChunks(bytes, 'IDAT')), 2 * plain + 1000)
  for (const profile of pngChunks(bytes, 'iCCP')) {
    // Section 11.3.2.3: a name that ends with a zero, the method, the stream.
    requireInflated(name, 'colour data', profile.subarray(profile.indexOf(0) + 2), MOST_PROFILE_BYTES)
  }
}

/** Bytes of one value of each type, in the order of their numbers from 1. */
const TIFF_BYTES = [1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8]
const MOST_TAGS = 1000
/** Values of the Compression tag: the registered one of TIFF Technical Note 3 (2002), and the old private one. */
const TIFF_DEFLATED: ReadonlySet<number> = new Set([8, 32_946])
const TIFF_MOST_PIXEL_BYTES = 32
const MOST_TILE_BYTES = 4_000_000

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
  const [width, height] = [only(TIFF_TAG.width), only(TIFF_TAG.height)]
  requireImageSize(name, width, height)
  if (!TIFF_DEFLATED.has(only(TIFF_TAG.compression))) return
  // Up to four samples of 64 bits a pixel, and a tile may reach beyond the edge of its image.
  const most = TIFF_MOST_PIXEL_BYTES * width * height + MOST_TILE_BYTES
  const numbers = (tag: number) => tiffNumbers(bytes, directory, tag)
  const counts = [...numbers(TIFF_TAG.stripCounts), ...numbers(TIFF_TAG.tileCounts)]
  const starts = [...numbers(TIFF_TAG.stripOffsets), ...numbers(TIFF_TAG.tileOffsets)]
  for (const [i, start] of starts.entries()) {
    requireInflated(name, 'image data', bytes.subarray(start, start + (counts[i] ?? 0)), most)
  }
}
