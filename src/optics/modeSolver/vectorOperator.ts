// The full-vector wave equation for the transverse field on staggered grids: Ex between the nodes along x, Ey between
// them along y, the divergence on the nodes. Each component has its semivectorial operator, and the walls couple them:
//   beta^2 Ex = TE Ex + d/dx [ 1/eps d(eps Ey)/dy - dEy/dy ],   beta^2 Ey = TM Ey + d/dy [ 1/eps d(eps Ex)/dx - dEx/dx ]
// Source: K. S. Yee's staggering in the form of Z. Zhu and T. G. Brown, Opt. Express 10 (2002) 853 (from memory), with the
// terms that cancel on a product grid left out.

import type { CrossSection } from './crossSection'
import { cellSizes, dualAxis, type GridAxis } from './grid'
import type { GridAxes } from './interpolate'
import type { Polarisation } from './permittivity'
import { slicesOf } from './slices'
import { applyOperator, WALLS, type WaveOperator, waveOperator } from './waveOperator'

export interface VectorOperator {
  /** Which component leads. */
  readonly polarisation: Polarisation
  readonly ex: WaveOperator
  readonly ey: WaveOperator
  readonly exAxes: GridAxes
  readonly eyAxes: GridAxes
  readonly nodes: GridAxes
  /** Number of the first node along x that holds an Ey: 0 on a mirror that Ey crosses unchanged. */
  readonly firstNode: 0 | 1
}

/**
 * Operators on the grid of faces `x`, `y`. With `mirror`, x begins at a mirror, which the leading component crosses unchanged
 * and the other with its sign changed.
 */
export function vectorOperator(
  polarisation: Polarisation,
  section: CrossSection,
  { x, y }: { readonly x: GridAxis; readonly y: GridAxis },
  wavelengthUm: number,
  mirror: boolean,
): VectorOperator {
  const onMirror = mirror && polarisation === 'TM'
  const exAxes = { x, y: dualAxis(y, false) }
  const eyAxes = { x: dualAxis(x, onMirror), y }
  const left = (leads: boolean) => (mirror && leads ? 'mirror' : 'wall')
  const component = (kind: Polarisation, axes: GridAxes) =>
    waveOperator(kind, slicesOf(section, axes.y.faces), axes.x, axes.y, wavelengthUm, {
      ...WALLS,
      left: left(kind === polarisation),
    })
  return {
    polarisation,
    ex: component('TE', exAxes),
    ey: component('TM', eyAxes),
    exAxes,
    eyAxes,
    nodes: { x, y },
    firstNode: onMirror ? 0 : 1,
  }
}

/** Adds to `out` the contribution of a field Ey to Ex. */
export function addEyToEx(
  { ex, ey, nodes, firstNode }: VectorOperator,
  field: Float64Array,
  out: Float64Array,
): void {
  const { nx } = ex
  const hx = cellSizes(nodes.x)
  const centres = nodes.y.centres
  const onNodes = new Float64Array(nx + 1)
  for (let j = 0; j < ex.ny; j++) {
    const hy = (centres[j + 1] as number) - (centres[j] as number)
    for (let i = firstNode; i < nx; i++) {
      const low = j * ey.nx + i - firstNode
      const high = low + ey.nx
      const below = field[low] as number
      const above = field[high] as number
      const flux = (ey.cells[high] as number) * above - (ey.cells[low] as number) * below
      onNodes[i] = (flux / (ex.between[j * (nx + 1) + i] as number) - (above - below)) / hy
    }
    for (let i = 0; i < nx; i++) {
      const change = ((onNodes[i + 1] as number) - (onNodes[i] as number)) / (hx[i] as number)
      out[j * nx + i] = (out[j * nx + i] as number) + change
    }
  }
}

/** Adds to `out` the contribution of a field Ex to Ey. */
export function addExToEy(
  { ex, ey, nodes, firstNode }: VectorOperator,
  field: Float64Array,
  out: Float64Array,
): void {
  const { nx } = ex
  const hy = cellSizes(nodes.y)
  const { centres, ends } = nodes.x
  let below = new Float64Array(ey.nx)
  let above = new Float64Array(ey.nx)
  for (let j = 0; j < ey.ny; j++) {
    if (j === ex.ny) above.fill(0)
    for (let q = 0; q < ey.nx && j < ex.ny; q++) {
      const i = q + firstNode
      const right = j * nx + i
      // On the mirror itself Ex vanishes, half a cell away.
      const [before, epsBefore] =
        i === 0 ? [0, 0] : [field[right - 1] as number, ex.cells[right - 1] as number]
      const after = field[right] as number
      const hx = (centres[i] as number) - (i === 0 ? ends[0] : (centres[i - 1] as number))
      const flux = (ex.cells[right] as number) * after - epsBefore * before
      above[q] = (flux / (ex.between[j * (nx + 1) + i] as number) - (after - before)) / hx
    }
    for (let q = 0; q < ey.nx; q++) {
      const change = ((above[q] as number) - (below[q] as number)) / (hy[j] as number)
      out[j * ey.nx + q] = (out[j * ey.nx + q] as number) + change
    }
    ;[below, above] = [above, below]
  }
}

/** out = operator * field, where a field is all of Ex followed by all of Ey. */
export function applyVector(operator: VectorOperator, field: Float64Array, out: Float64Array): void {
  const { ex, ey } = operator
  const count = ex.nx * ex.ny
  const [fieldX, fieldY] = [field.subarray(0, count), field.subarray(count)]
  const [outX, outY] = [out.subarray(0, count), out.subarray(count)]
  applyOperator(ex, fieldX, outX)
  applyOperator(ey, fieldY, outY)
  addEyToEx(operator, fieldY, outX)
  addExToEy(operator, fieldX, outY)
}
