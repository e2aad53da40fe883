// Work at the operating point of the station: temperature, wavelength and polarisation as when the guides are aligned.

import type { Values } from './readers'

/** `work` with the operating places of the vector at 0, their values at assembly; they are restored after it. */
export function atAssembly(operating: readonly number[], work: (v: Values) => void): (v: Values) => void {
  const now = new Float64Array(operating.length)
  return (v) => {
    for (let i = 0; i < operating.length; i++) {
      now[i] = v[operating[i] ?? 0] ?? 0
      v[operating[i] ?? 0] = 0
    }
    work(v)
    for (let i = 0; i < operating.length; i++) v[operating[i] ?? 0] = now[i] ?? 0
  }
}

/** `work` only where a value that it reads differs from those it last worked on; any value where its places are not known. */
export function unlessUnchanged(
  reads: readonly number[] | null,
  work: (v: Values) => void,
): (v: Values) => void {
  let last: Values = new Float64Array(0)
  let places = new Int32Array(0)
  return (v) => {
    let same = v.length === last.length
    if (same) {
      for (let i = 0; same && i < places.length; i++) {
        const place = places[i] as number
        same = v[place] === last[place]
      }
    } else {
      last = new Float64Array(v.length)
      places = Int32Array.from(reads ?? Array.from({ length: v.length }, (_, place) => place))
    }
    if (same) return
    work(v)
    for (let i = 0; i < places.length; i++) last[places[i] as number] = v[places[i] as number] as number
  }
}
