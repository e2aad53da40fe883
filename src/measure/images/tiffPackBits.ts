// PackBits strips and tiles of a TIFF written out plainly, for a decoder that knows every other common compression.
//   n = 0 … 127: n + 1 bytes follow as they are;  n = −1 … −127: the next byte 1 − n times;  n = −128: nothing
// Source: TIFF Revision 6.0 (1992), section 9.

import { TIFF_TAG, tiffDirectory, tiffNumbers } from './tiffDirectory'

const PACK_BITS = 32_773
const LONG = 4
/** The same file without PackBits; any other file comes back as it is. Only its first image is kept. */
export function withoutPackBits(bytes: Uint8Array): Uint8Array {
  const directory = tiffDirectory(bytes)
  const numbers = (tag: number) => tiffNumbers(bytes, directory, tag)
  if (numbers(TIFF_TAG.compression)[0] !== PACK_BITS) return bytes
  const isTiled = numbers(TIFF_TAG.tileOffsets).length > 0
  const offsetTag = isTiled ? TIFF_TAG.tileOffsets : TIFF_TAG.stripOffsets
  const countTag = isTiled ? TIFF_TAG.tileCounts : TIFF_TAG.stripCounts
  const counts = numbers(countTag)
  const parts = numbers(offsetTag).map((from, i) =>
    unpacked(bytes.subarray(from, from + (counts[i] as number))),
  )
  const dataLength = parts.reduce((sum, part) => sum + part.length, 0)

  // Behind the old bytes: the data, where each part of it lies, how long it is, and a directory that says so.
  const { littleEndian, entries } = directory
  const dataAt = bytes.length + (bytes.length % 2)
  const offsetsAt = dataAt + dataLength + (dataLength % 2)
  const countsAt = offsetsAt + 4 * parts.length
  const directoryAt = countsAt + 4 * parts.length
  const out = new Uint8Array(directoryAt + 2 + 12 * entries.length + 4)
  const view = new DataView(out.buffer)
  out.set(bytes)
  let at = dataAt
  parts.forEach((part, i) => {
    out.set(part, at)
    view.setUint32(offsetsAt + 4 * i, at, littleEndian)
    view.setUint32(countsAt + 4 * i, part.length, littleEndian)
    at += part.length
  })
  view.setUint32(4, directoryAt, littleEndian)
  view.setUint16(directoryAt, entries.length, littleEndian)
  entries.forEach((entry, i) => {
    const to = directoryAt + 2 + 12 * i
    out.set(bytes.subarray(entry.at, entry.at + 12), to)
    if (entry.tag === TIFF_TAG.compression) view.setUint16(to + 8, 1, littleEndian)
    if (entry.tag !== offsetTag && entry.tag !== countTag) return
    const listAt = entry.tag === offsetTag ? offsetsAt : countsAt
    view.setUint16(to + 2, LONG, littleEndian)
    // A list of one number is kept in the entry itself.
    view.setUint32(to + 8, parts.length === 1 ? view.getUint32(listAt, littleEndian) : listAt, littleEndian)
  })
  return out
}

/** Bytes that packed data become. */
export function packBitsLength(packed: Uint8Array): number {
  let length = 0
  for (let i = 0; i < packed.length; i += runOf(packed[i] as number).taken)
    length += runOf(packed[i] as number).given
  return length
}

function unpacked(packed: Uint8Array): Uint8Array {
  const out = new Uint8Array(packBitsLength(packed))
  let at = 0
  for (let i = 0; i < packed.length; ) {
    const n = packed[i] as number
    const { taken, given } = runOf(n)
    if (i + taken > packed.length) throw new RangeError('the PackBits data end within a run')
    if (n < 128) out.set(packed.subarray(i + 1, i + taken), at)
    else if (n > 128) out.fill(packed[i + 1] ?? 0, at, at + given)
    at += given
    i += taken
  }
  return out
}

/** Bytes that a run takes from the packed data, and that it gives; `n` is its first byte without sign. */
function runOf(n: number): { readonly taken: number; readonly given: number } {
  if (n < 128) return { taken: n + 2, given: n + 1 }
  return n > 128 ? { taken: 2, given: 257 - n } : { taken: 1, given: 0 }
}
