// Decompressed length of LZW data, without decompressing them: a code represents up to 3,840 of them.
// Source: TIFF Revision 6.0 (1992), section 13: codes of 9 to 12 bits, highest bit first; 256 clears the table, 257 ends the data, and
// a code grows by a bit one entry before the table needs it.

const [CLEAR, END, FIRST_FREE] = [256, 257, 258]
const [LEAST_BITS, MOST_BITS] = [9, 12]

/** Bytes that the data become. Counting stops soon after `most`, and at the first damage: a decoder stops there too. */
export function lzwLength(bytes: Uint8Array, most: number): number {
  const lengths = new Uint16Array(1 << MOST_BITS).fill(1, 0, CLEAR)
  let [entries, bits, at, before, total] = [FIRST_FREE, LEAST_BITS, 0, -1, 0]
  while (total <= most && at + bits <= 8 * bytes.length) {
    const byte = at >> 3
    const word = ((bytes[byte] as number) << 16) | ((bytes[byte + 1] ?? 0) << 8) | (bytes[byte + 2] ?? 0)
    const code = (word >> (24 - bits - (at & 7))) & ((1 << bits) - 1)
    at += bits
    if (code === END) break
    if (code === CLEAR) {
      ;[entries, bits, before] = [FIRST_FREE, LEAST_BITS, -1]
      continue
    }
    if (before >= 0 && entries < lengths.length) lengths[entries++] = (lengths[before] as number) + 1
    if (code >= entries) break
    total += lengths[code] as number
    before = code
    bits = Math.min(MOST_BITS, Math.max(bits, 32 - Math.clz32(entries + 1)))
  }
  return total
}
