// The size in the header of an image, checked before a decoder allocates memory for it.
// Source: PNG (Third Edition), 11.2.1: IHDR is the first chunk, two 32-bit big-endian sizes first.

import { READING_LIMITS } from '../../model/words/limits'
import { InputError } from '../../numerics/inputError'
import { megabytesText } from '../../numerics/numberText'
import { inflatedLength } from './inflatedLength'

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

/** InputError for data that decompress to more than they may. */
export function requireUnfolded(name: string, what: string, length: number, most: number): void {
  if (length <= most) return
  throw new InputError(
    `decompressed size of the ${what} of ${name}`,
    `more than ${megabytesText(most)}`,
    'no more than its header states',
  )
}

/** InputError for a PNG whose header is missing or states too large a size, and for one that holds more data than its header states. */
export function checkPngHeader(bytes: Uint8Array, name: string): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < PNG_SIZE_AT + 13)
    throw new InputError(name, 'a PNG without a header', 'a complete PNG file')
  const [width, height] = [view.getUint32(PNG_SIZE_AT), view.getUint32(PNG_SIZE_AT + 4)]
  requireImageSize(name, width, height)
  const bitsPerPixel = view.getUint8(PNG_SIZE_AT + 8) * (PNG_SAMPLES[view.getUint8(PNG_SIZE_AT + 9)] ?? 4)
  // Section 7.2: a byte for the filter before every row. The passes of an interlaced image have fewer than twice the rows.
  const plain = height * (2 + Math.ceil((width * bitsPerPixel) / 8))
  const most = 2 * plain + 1000
  requireUnfolded(name, 'image data', inflatedLength(joined(pngChunks(bytes, 'IDAT')), most), most)
  for (const profile of pngChunks(bytes, 'iCCP')) {
    // Section 11.3.2.3: a name that ends with a zero, the method, the stream.
    const stream = profile.subarray(profile.indexOf(0) + 2)
    requireUnfolded(name, 'colour data', inflatedLength(stream, MOST_PROFILE_BYTES), MOST_PROFILE_BYTES)
  }
}
