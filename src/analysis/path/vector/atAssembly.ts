// Work at the operating point of the station: temperature, wavelength and polarisation as when the guides are aligned.

import type { Values } from './readers'

/** `work` with the operating places of the vector at 0, which is how they stand at assembly; they come back after it. */
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
