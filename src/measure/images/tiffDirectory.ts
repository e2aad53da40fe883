// The first image directory of a TIFF file, as entries.
// Source: TIFF Revision 6.0 (1992), section 2: byte order, directory of 12-byte entries, inline values.

interface TiffEntry {
  readonly tag: number
  readonly type: number
  readonly count: number
  /** Byte offset of the entry itself. */
  readonly at: number
}

interface TiffDirectory {
  readonly littleEndian: boolean
  readonly entries: readonly TiffEntry[]
}

export const TIFF_TAG = {
  width: 256,
  height: 257,
  bits: 258,
  compression: 259,
  stripOffsets: 273,
  samples: 277,
  stripCounts: 279,
  planes: 284,
  predictor: 317,
  tileOffsets: 324,
  tileCounts: 325,
  sampleFormat: 339,
} as const

const TYPE = { short: 3, long: 4 } as const

/** Throws RangeError for files that are cut short, as every reader of their bytes does. */
export function tiffDirectory(bytes: Uint8Array): TiffDirectory {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const littleEndian = view.getUint8(0) === 0x49
  const start = view.getUint32(4, littleEndian)
  const count = view.getUint16(start, littleEndian)
  const entries = Array.from({ length: count }, (_, i): TiffEntry => {
    const at = start + 2 + 12 * i
    return {
      tag: view.getUint16(at, littleEndian),
      type: view.getUint16(at + 2, littleEndian),
      count: view.getUint32(at + 4, littleEndian),
      at,
    }
  })
  return { littleEndian, entries }
}

/** The whole numbers of a tag; empty where the file has no such tag or it holds something else. */
export function tiffNumbers(bytes: Uint8Array, directory: TiffDirectory, tag: number): readonly number[] {
  const { littleEndian, entries } = directory
  const entry = entries.find((each) => each.tag === tag)
  if (entry === undefined || (entry.type !== TYPE.short && entry.type !== TYPE.long)) return []
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const size = entry.type === TYPE.short ? 2 : 4
  const from = entry.count * size <= 4 ? entry.at + 8 : view.getUint32(entry.at + 8, littleEndian)
  if (from + entry.count * size > bytes.length)
    throw new RangeError('a tag points beyond the end of the file')
  return Array.from({ length: entry.count }, (_, i) =>
    size === 2 ? view.getUint16(from + 2 * i, littleEndian) : view.getUint32(from + 4 * i, littleEndian),
  )
}
