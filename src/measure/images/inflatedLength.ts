// Decompressed length of a deflated stream, without decompressing it: a small file may expand to gigabytes. Copies refer to bytes that
// went before, but their length is in the stream, so that counting needs no memory.
// Source: RFC 1951 (1996), sections 3.2.2 to 3.2.7; RFC 1950 (1996), section 2.2: two bytes of header, a dictionary if FDICT is set.

/** Section 3.2.5: first length of the codes from 257, and how many bits follow to add to it. */
const LENGTH_FROM = [
  3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195,
  227, 258,
]
const LENGTH_BITS = [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0]
/** Section 3.2.7: the order of the lengths of the code of code lengths. */
const ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15]
const MOST_BITS = 15
const END_OF_BLOCK = 256

/** By the next bits of the stream: the symbol and the length of its code, as `16 * symbol + length`; 0 for no code. */
type CodeTable = Int32Array

/** Section 3.2.2; codes are read from their highest bit, and so are reversed in the table. */
function codeTable(lengths: ArrayLike<number>): CodeTable {
  const table = new Int32Array(1 << MOST_BITS)
  const counts = new Int32Array(MOST_BITS + 1)
  for (let i = 0; i < lengths.length; i++) counts[lengths[i] ?? 0] = (counts[lengths[i] ?? 0] ?? 0) + 1
  counts[0] = 0
  const next = new Int32Array(MOST_BITS + 2)
  for (let bits = 1; bits <= MOST_BITS; bits++) {
    next[bits] = ((next[bits - 1] ?? 0) + (counts[bits - 1] ?? 0)) << 1
  }
  for (let symbol = 0; symbol < lengths.length; symbol++) {
    const length = lengths[symbol] ?? 0
    if (length === 0) continue
    const code = next[length] ?? 0
    next[length] = code + 1
    let reversed = 0
    for (let bit = 0; bit < length; bit++) reversed |= ((code >> bit) & 1) << (length - 1 - bit)
    for (let at = reversed; at < table.length; at += 1 << length) table[at] = 16 * symbol + length
  }
  return table
}

/** Section 3.2.6. */
function fixedLengths(): Uint8Array {
  return Uint8Array.from({ length: 288 }, (_, symbol) =>
    symbol < 144 ? 8 : symbol < 256 ? 9 : symbol < 280 ? 7 : 8,
  )
}

/** The bits of a stream from the lowest of each byte. Beyond its end there are zeros, and `over` is true. */
function bitReader(bytes: Uint8Array, from: number) {
  let at = 8 * from
  const peek = (count: number) => {
    const byte = at >> 3
    const word = (bytes[byte] ?? 0) | ((bytes[byte + 1] ?? 0) << 8) | ((bytes[byte + 2] ?? 0) << 16)
    return (word >> (at & 7)) & ((1 << count) - 1)
  }
  const take = (count: number) => {
    const bits = peek(count)
    at += count
    return bits
  }
  return {
    take,
    /** The next symbol; -1 where the bits are not a code. */
    symbol: (table: CodeTable) => {
      const entry = table[peek(MOST_BITS)] ?? 0
      at += entry & 15
      return entry === 0 ? -1 : entry >> 4
    },
    /** Skips the rest of the byte, then so many bytes. */
    toByte: () => {
      at = 8 * ((at + 7) >> 3)
    },
    skipBytes: (count: number) => {
      at += 8 * count
    },
    over: () => at > 8 * bytes.length,
  }
}

type Bits = ReturnType<typeof bitReader>

/** Section 3.2.7: the codes of a block that brings its own; null where they are none. */
function ownCodes(bits: Bits): readonly [literals: CodeTable, distances: CodeTable] | null {
  const literals = bits.take(5) + 257
  const distances = bits.take(5) + 1
  const codeLengths = new Uint8Array(19)
  for (const index of ORDER.slice(0, bits.take(4) + 4)) codeLengths[index] = bits.take(3)
  const table = codeTable(codeLengths)
  const lengths = new Uint8Array(literals + distances)
  for (let i = 0; i < lengths.length; ) {
    const symbol = bits.symbol(table)
    if (symbol < 0 || bits.over()) return null
    if (symbol < 16) lengths[i++] = symbol
    else {
      const value = symbol === 16 ? (lengths[i - 1] ?? 0) : 0
      const repeat = symbol === 16 ? 3 + bits.take(2) : symbol === 17 ? 3 + bits.take(3) : 11 + bits.take(7)
      lengths.fill(value, i, i + repeat)
      i += repeat
    }
  }
  return [codeTable(lengths.subarray(0, literals)), codeTable(lengths.subarray(literals))]
}

/** Bytes of one block with codes, at most a little more than `most`; null where it is damaged. */
function blockLength(
  bits: Bits,
  [literals, distances]: readonly [CodeTable, CodeTable],
  most: number,
): number | null {
  let length = 0
  while (length <= most) {
    const symbol = bits.symbol(literals)
    if (symbol < 0 || bits.over()) return null
    if (symbol === END_OF_BLOCK) return length
    if (symbol < END_OF_BLOCK) {
      length++
      continue
    }
    const code = symbol - 257
    length += (LENGTH_FROM[code] ?? 0) + bits.take(LENGTH_BITS[code] ?? 0)
    const distance = bits.symbol(distances)
    if (distance < 0) return null
    bits.take(distance < 4 ? 0 : (distance >> 1) - 1)
  }
  return length
}

/**
 * Decompressed length of the zlib stream in `bytes`. Counting stops soon after `most`, and at the first damage: a decoder stops there too.
 */
export function inflatedLength(bytes: Uint8Array, most: number): number {
  const hasDictionary = ((bytes[1] ?? 0) & 0x20) !== 0
  const bits = bitReader(bytes, hasDictionary ? 6 : 2)
  let length = 0
  for (let last = false; !last && length <= most && !bits.over(); ) {
    last = bits.take(1) === 1
    const kind = bits.take(2)
    if (kind === 0) {
      bits.toByte()
      const stored = bits.take(16)
      bits.skipBytes(2 + stored)
      length += stored
      continue
    }
    const codes =
      kind === 1
        ? ([codeTable(fixedLengths()), codeTable(new Uint8Array(30).fill(5))] as const)
        : ownCodes(bits)
    const added = kind === 3 || codes === null ? null : blockLength(bits, codes, most - length)
    if (added === null) break
    length += added
  }
  return length
}
