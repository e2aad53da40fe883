// Work at the operating point of the station: temperature, wavelength and polarisation as when the guides are aligned.

import type { Values } from './valueReaders'

/** `work` with the operating slots of the vector at 0, their values at assembly; they are restored after it. */
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

/** `work` only where a value that it reads differs from those it last worked on; any value where its slots are not known. */
export function unlessUnchanged(
  reads: readonly number[] | null,
  work: (v: Values) => void,
): (v: Values) => void {
  let last: Values = new Float64Array(0)
  let slots = new Int32Array(0)
  return (v) => {
    let same = v.length === last.length
    if (same) {
      for (let i = 0; same && i < slots.length; i++) {
        const slot = slots[i] as number
        same = v[slot] === last[slot]
      }
    } else {
      last = new Float64Array(v.length)
      slots = Int32Array.from(reads ?? Array.from({ length: v.length }, (_, slot) => slot))
    }
    if (same) return
    work(v)
    for (let i = 0; i < slots.length; i++) last[slots[i] as number] = v[slots[i] as number] as number
  }
}
