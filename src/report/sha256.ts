// SHA-256 of a text, so that a paper and a file can be matched. Source: FIPS 180-4, sections 4.1.2, 5.1.1 and 6.2.
// The platform's own is neither synchronous nor there on every page that is opened from a disk.

const PRIMES = firstPrimes(64)

function firstPrimes(count: number): readonly number[] {
  const primes: number[] = []
  for (let n = 2; primes.length < count; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n)
  return primes
}

/** First 32 bits of the fraction of a root, as the standard makes its constants; the whole part is beyond 32 bits and falls out. */
const fraction = (root: number) => (root * 2 ** 32) >>> 0
const ROUNDS = Uint32Array.from(PRIMES, (prime) => fraction(Math.cbrt(prime)))
const START = Uint32Array.from(PRIMES.slice(0, 8), (prime) => fraction(Math.sqrt(prime)))

const rotated = (word: number, by: number) => (word >>> by) | (word << (32 - by))

/** The message with a one bit, zeros and its length in bits, in blocks of 64 bytes. */
function padded(bytes: Uint8Array): DataView {
  const length = 64 * Math.ceil((bytes.length + 9) / 64)
  const view = new DataView(new ArrayBuffer(length))
  new Uint8Array(view.buffer).set(bytes)
  view.setUint8(bytes.length, 0x80)
  view.setUint32(length - 8, Math.floor(bytes.length / 2 ** 29))
  view.setUint32(length - 4, (bytes.length << 3) >>> 0)
  return view
}

function addBlock(state: Uint32Array, words: Uint32Array): void {
  for (let i = 16; i < 64; i++) {
    const early = words[i - 15] ?? 0
    const late = words[i - 2] ?? 0
    const s0 = rotated(early, 7) ^ rotated(early, 18) ^ (early >>> 3)
    const s1 = rotated(late, 17) ^ rotated(late, 19) ^ (late >>> 10)
    words[i] = (words[i - 16] ?? 0) + s0 + (words[i - 7] ?? 0) + s1
  }
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = state
  for (let i = 0; i < 64; i++) {
    const sum1 = rotated(e, 6) ^ rotated(e, 11) ^ rotated(e, 25)
    const choice = (e & f) ^ (~e & g)
    const first = (h + sum1 + choice + (ROUNDS[i] ?? 0) + (words[i] ?? 0)) | 0
    const sum0 = rotated(a, 2) ^ rotated(a, 13) ^ rotated(a, 22)
    const majority = (a & b) ^ (a & c) ^ (b & c)
    h = g
    g = f
    f = e
    e = (d + first) | 0
    d = c
    c = b
    b = a
    a = (first + sum0 + majority) | 0
  }
  for (const [i, word] of [a, b, c, d, e, f, g, h].entries()) state[i] = (state[i] ?? 0) + word
}

/** Blocks between two pauses: a few milliseconds. */
const BLOCKS_A_STEP = 2048

/** The digest of the text's UTF-8 bytes as 64 hexadecimal digits, with pauses. */
export function* sha256Steps(text: string): Generator<void, string, void> {
  const view = padded(new TextEncoder().encode(text))
  const state = Uint32Array.from(START)
  const words = new Uint32Array(64)
  for (let block = 0; 64 * block < view.byteLength; block++) {
    for (let i = 0; i < 16; i++) words[i] = view.getUint32(64 * block + 4 * i)
    addBlock(state, words)
    if (block % BLOCKS_A_STEP === BLOCKS_A_STEP - 1) yield
  }
  return Array.from(state, (word) => word.toString(16).padStart(8, '0')).join('')
}
