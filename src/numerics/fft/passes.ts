// One pass of a fast Fourier transform, in place, on several lines of numbers at once. An element of a line lies `step`
// after the one before it, the same element of the next line `lane` further: rows and columns of a row-major array are
// both lines. A forward transform goes from the whole length down by fours, and by two at the end where the power of
// two is odd; the inverse goes up the same way and so undoes it exactly, but for the factor. Neither reorders.
// Source: decimation in frequency and in time, J. W. Cooley and J. W. Tukey, Math. Comput. 19 (1965) 297; radix 4 as in
// C. Van Loan, Computational Frameworks for the Fast Fourier Transform (1992), ch. 2 (from memory).

/** cos and sin of 2 pi k / n for k = 0 .. n - 1. */
export interface Twiddles {
  readonly cos: Float64Array
  readonly sin: Float64Array
}

export function twiddles(n: number): Twiddles {
  const angles = Float64Array.from({ length: n }, (_, k) => (2 * Math.PI * k) / n)
  return { cos: angles.map(Math.cos), sin: angles.map(Math.sin) }
}

/** Lines of `n` numbers: where the first starts, how they lie, how many. */
export interface Lines {
  start: number
  n: number
  step: number
  lanes: number
  lane: number
}

/** Forward pass by fours over blocks of `length`. */
export function foursForward(
  re: Float64Array,
  im: Float64Array,
  lines: Lines,
  length: number,
  { cos, sin }: Twiddles,
): void {
  const { start, n, step, lanes, lane } = lines
  const quarter = length / 4
  const turn = n / length
  const hop = quarter * step
  const span = lanes * lane
  for (let block = 0; block < n; block += length) {
    for (let j = 0; j < quarter; j++) {
      const k = j * turn
      const c1 = cos[k] as number
      const s1 = -(sin[k] as number)
      const c2 = cos[2 * k] as number
      const s2 = -(sin[2 * k] as number)
      const c3 = cos[3 * k] as number
      const s3 = -(sin[3 * k] as number)
      const from = start + (block + j) * step
      const end = from + span
      for (let i0 = from; i0 < end; i0 += lane) {
        const i1 = i0 + hop
        const i2 = i1 + hop
        const i3 = i2 + hop
        const ar = re[i0] as number
        const ai = im[i0] as number
        const br = re[i1] as number
        const bi = im[i1] as number
        const cr = re[i2] as number
        const ci = im[i2] as number
        const dr = re[i3] as number
        const di = im[i3] as number
        const acr = ar + cr
        const aci = ai + ci
        const bdr = br + dr
        const bdi = bi + di
        const er = ar - cr
        const ei = ai - ci
        const fr = bi - di
        const fi = dr - br
        re[i0] = acr + bdr
        im[i0] = aci + bdi
        const ur = er + fr
        const ui = ei + fi
        re[i1] = ur * c1 - ui * s1
        im[i1] = ur * s1 + ui * c1
        const vr = acr - bdr
        const vi = aci - bdi
        re[i2] = vr * c2 - vi * s2
        im[i2] = vr * s2 + vi * c2
        const wr = er - fr
        const wi = ei - fi
        re[i3] = wr * c3 - wi * s3
        im[i3] = wr * s3 + wi * c3
      }
    }
  }
}

/** Undoes foursForward, but for the factor 4. */
export function foursInverse(
  re: Float64Array,
  im: Float64Array,
  lines: Lines,
  length: number,
  { cos, sin }: Twiddles,
): void {
  const { start, n, step, lanes, lane } = lines
  const quarter = length / 4
  const turn = n / length
  const hop = quarter * step
  const span = lanes * lane
  for (let block = 0; block < n; block += length) {
    for (let j = 0; j < quarter; j++) {
      const k = j * turn
      const c1 = cos[k] as number
      const s1 = sin[k] as number
      const c2 = cos[2 * k] as number
      const s2 = sin[2 * k] as number
      const c3 = cos[3 * k] as number
      const s3 = sin[3 * k] as number
      const from = start + (block + j) * step
      const end = from + span
      for (let i0 = from; i0 < end; i0 += lane) {
        const i1 = i0 + hop
        const i2 = i1 + hop
        const i3 = i2 + hop
        const br = re[i1] as number
        const bi = im[i1] as number
        const ur = br * c1 - bi * s1
        const ui = br * s1 + bi * c1
        const cr = re[i2] as number
        const ci = im[i2] as number
        const vr = cr * c2 - ci * s2
        const vi = cr * s2 + ci * c2
        const dr = re[i3] as number
        const di = im[i3] as number
        const wr = dr * c3 - di * s3
        const wi = dr * s3 + di * c3
        const ar = re[i0] as number
        const ai = im[i0] as number
        const avr = ar + vr
        const avi = ai + vi
        const uwr = ur + wr
        const uwi = ui + wi
        re[i0] = avr + uwr
        im[i0] = avi + uwi
        re[i2] = avr - uwr
        im[i2] = avi - uwi
        const er = ar - vr
        const ei = ai - vi
        const fr = wi - ui
        const fi = ur - wr
        re[i1] = er + fr
        im[i1] = ei + fi
        re[i3] = er - fr
        im[i3] = ei - fi
      }
    }
  }
}

/** The pass by two over neighbours in a line; its own inverse, but for the factor 2. */
export function twos(re: Float64Array, im: Float64Array, { start, n, step, lanes, lane }: Lines): void {
  const span = lanes * lane
  for (let block = 0; block < n; block += 2) {
    const from = start + block * step
    const end = from + span
    for (let i0 = from; i0 < end; i0 += lane) {
      const i1 = i0 + step
      const ar = re[i0] as number
      const ai = im[i0] as number
      const br = re[i1] as number
      const bi = im[i1] as number
      re[i0] = ar + br
      im[i0] = ai + bi
      re[i1] = ar - br
      im[i1] = ai - bi
    }
  }
}
