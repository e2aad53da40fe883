// The size in the tags of a TIFF and the decompressed length of its data, checked before a decoder allocates memory.
// Source: TIFF Revision 6.0 (1992), section 8: ImageWidth and ImageLength are one SHORT or LONG each.

import { InputError } from '../../numerics/inputError'
import { requireImageSize, requireUnfolded } from './imageSize'
import { inflatedLength } from './inflatedLength'
import { lzwLength } from './lzwLength'
import { TIFF_TAG, tiffDirectory, tiffNumbers } from './tiffDirectory'
import { packBitsLength } from './tiffPackBits'

/** Bytes of one value of each type, in the order of their numbers from 1. */
const TIFF_BYTES = [1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8]
const MOST_TAGS = 1000
/** Four samples of 64 bits. */
const MOST_PIXEL_BYTES = 32
/** A tile may reach beyond the edge of its image. */
const MOST_TILE_BYTES = 4_000_000

/** What a strip unfolds to, by the value of the Compression tag; deflate is 8 by Technical Note 3 (2002), 32946 before it. */
const LENGTH_OF: Readonly<Record<number, (bytes: Uint8Array, most: number) => number>> = {
  5: lzwLength,
  8: inflatedLength,
  32773: packBitsLength,
  32946: inflatedLength,
}

/** InputError for a TIFF whose tags promise too much: a size, a list that is longer than the file, lists upon lists; and for data that
 * unfold to more than the image needs. */
export function checkTiffHeader(bytes: Uint8Array, name: string): void {
  const directory = tiffDirectory(bytes)
  const numbers = (tag: number) => tiffNumbers(bytes, directory, tag)
  const listed = directory.entries.reduce(
    (sum, { type, count }) => sum + count * (TIFF_BYTES[type - 1] ?? 0),
    0,
  )
  if (directory.entries.length > MOST_TAGS || listed > bytes.length) {
    throw new InputError(
      `size of the tags of ${name}`,
      `${listed} bytes`,
      `no more than the file, ${bytes.length} bytes`,
    )
  }
  const only = (tag: number) => {
    const found = numbers(tag)
    return found.length === 1 ? (found[0] ?? 0) : 0
  }
  const [width, height] = [only(TIFF_TAG.width), only(TIFF_TAG.height)]
  requireImageSize(name, width, height)
  const sampleBits = Math.max(1, ...numbers(TIFF_TAG.bits))
  const pixelBytes = Math.ceil((sampleBits * (only(TIFF_TAG.samples) || 1)) / 8)
  if (pixelBytes > MOST_PIXEL_BYTES) {
    throw new InputError(`number of bytes per pixel of ${name}`, pixelBytes, `at most ${MOST_PIXEL_BYTES}`)
  }
  const lengthOf = LENGTH_OF[only(TIFF_TAG.compression)]
  if (lengthOf === undefined) return
  const most = 2 * width * height * pixelBytes + MOST_TILE_BYTES
  const counts = [...numbers(TIFF_TAG.stripCounts), ...numbers(TIFF_TAG.tileCounts)]
  const starts = [...numbers(TIFF_TAG.stripOffsets), ...numbers(TIFF_TAG.tileOffsets)]
  let length = 0
  for (const [i, start] of starts.entries()) {
    // Without a count a strip may go on to the end of the file.
    const strip = bytes.subarray(start, start + (counts[i] ?? bytes.length))
    length += lengthOf(strip, most - length)
    requireUnfolded(name, 'image data', length, most)
  }
}
