// The entries of a full-vector operator as a sparse matrix, found by what it makes of combs of unit fields: the operator as it is
// applied, not as it is written.

import { applyVector, type VectorOperator } from '../../src/optics/modeSolver/vectorOperator'

/** No value reaches further than this many cells. */
const REACH = 2
const PITCH = 2 * REACH + 1

export interface Entries {
  readonly size: number
  readonly rows: Uint32Array
  readonly columns: Uint32Array
  readonly values: Float64Array
}

export function operatorEntries(operator: VectorOperator): Entries {
  const { ex, ey, firstNode } = operator
  const count = ex.nx * ex.ny
  const size = count + ey.nx * ey.ny
  // Place of every value on the grid of nodes, and of every such place the value.
  const components = [
    { nx: ex.nx, ny: ex.ny, from: 0, shift: 0 },
    { nx: ey.nx, ny: ey.ny, from: count, shift: firstNode },
  ]
  const rows: number[] = []
  const columns: number[] = []
  const values: number[] = []
  const field = new Float64Array(size)
  const out = new Float64Array(size)
  for (const teeth of components) {
    for (let comb = 0; comb < PITCH * PITCH; comb++) {
      const [atX, atY] = [comb % PITCH, Math.floor(comb / PITCH)]
      field.fill(0)
      for (let y = atY; y < teeth.ny; y += PITCH) {
        for (let x = atX; x < teeth.nx; x += PITCH) field[teeth.from + y * teeth.nx + x] = 1
      }
      out.fill(0)
      applyVector(operator, field, out)
      for (const own of components) {
        for (let y = 0; y < own.ny; y++) {
          for (let x = 0; x < own.nx; x++) {
            const row = own.from + y * own.nx + x
            const value = out[row] as number
            if (value === 0) continue
            // The only tooth within reach.
            const toothX = nearest(x + own.shift - teeth.shift, atX)
            const toothY = nearest(y, atY)
            rows.push(row)
            columns.push(teeth.from + toothY * teeth.nx + toothX)
            values.push(value)
          }
        }
      }
    }
  }
  return {
    size,
    rows: Uint32Array.from(rows),
    columns: Uint32Array.from(columns),
    values: Float64Array.from(values),
  }
}

/** The number nearest to `place` that leaves `rest` when divided by the pitch. */
const nearest = (position: number, rest: number) => rest + PITCH * Math.round((position - rest) / PITCH)
