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

/** `work` only where any value differs from those it last worked on. */
export function unlessUnchanged(work: (v: Values) => void): (v: Values) => void {
  let last: Values = new Float64Array(0)
  return (v) => {
    let same = v.length === last.length
    for (let i = 0; same && i < v.length; i++) same = v[i] === last[i]
    if (same) return
    work(v)
    last = Float64Array.from(v)
  }
}
