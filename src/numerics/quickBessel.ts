// J0 and J1 to 1e-7, for sums with tens of thousands of terms; bessel.ts has them to all digits, ten times slower.
// J0 by Lagrange's polynomial through four values of a table, which is twice as quick again, and beyond the table as J1.
// Source: M. Abramowitz and I. Stegun (1964), 9.4.1, 9.4.3, 9.4.4, 9.4.6 (coefficients from memory, tested against bessel.ts).

import { besselJ0 } from './bessel'

const ROWS_A_UNIT = 32
const TABLE_END = 64
/** J0 from one row before 0 to two rows beyond the end. */
const TABLE_J0 = Float64Array.from({ length: ROWS_A_UNIT * TABLE_END + 4 }, (_, i) =>
  besselJ0((i - 1) / ROWS_A_UNIT),
)

/** J0 of 0 or more, to 1e-7. */
export function quickJ0(x: number): number {
  const row = x * ROWS_A_UNIT
  if (!(row < ROWS_A_UNIT * TABLE_END)) return distantJ0(x)
  const at = Math.floor(row)
  const t = row - at
  const a = TABLE_J0[at] as number
  const b = TABLE_J0[at + 1] as number
  const c = TABLE_J0[at + 2] as number
  const d = TABLE_J0[at + 3] as number
  const slope = c - a / 3 - b / 2 - d / 6
  const bend = (a + c) / 2 - b
  const twist = (d - a) / 6 + (b - c) / 2
  return b + t * (slope + t * (bend + t * twist))
}

/** J0 of 3 or more, to 1e-7. */
function distantJ0(x: number): number {
  const z = 3 / x
  const size =
    0.79788456 +
    z *
      (-0.00000077 +
        z * (-0.0055274 + z * (-0.00009512 + z * (0.00137237 + z * (-0.00072805 + z * 0.00014476)))))
  const phase =
    x -
    0.78539816 +
    z *
      (-0.04166397 +
        z * (-0.00003954 + z * (0.00262573 + z * (-0.00054125 + z * (-0.00029333 + z * 0.00013558)))))
  return (size * Math.cos(phase)) / Math.sqrt(x)
}

/** J1 of 0 or more, to 1e-7. */
export function quickJ1(x: number): number {
  if (x < 3) {
    const y = (x * x) / 9
    return (
      x *
      (0.5 +
        y *
          (-0.56249985 +
            y * (0.21093573 + y * (-0.03954289 + y * (0.00443319 + y * (-0.00031761 + y * 0.00001109))))))
    )
  }
  const z = 3 / x
  const size =
    0.79788456 +
    z *
      (0.00000156 +
        z * (0.01659667 + z * (0.00017105 + z * (-0.00249511 + z * (0.00113653 - z * 0.00020033)))))
  const phase =
    x -
    2.35619449 +
    z *
      (0.12499612 +
        z * (0.0000565 + z * (-0.00637879 + z * (0.00074348 + z * (0.00079824 - z * 0.00029166)))))
  return (size * Math.cos(phase)) / Math.sqrt(x)
}
