// LU factors of a matrix that couples the cells of a regular grid with their four neighbours, and solving with them: front by
// front in the order of a nested dissection. Each front is a small full matrix; what its elimination leaves is kept on a stack
// until the cut that takes it in. No rows are exchanged. That does no harm for M-matrices (positive diagonal, off-diagonals at
// most 0, diagonally dominant in a weighted sense): then all pivots are positive, and a pivot at or below 0 says that the
// matrix is none.
// Source: I. S. Duff and J. K. Reid, ACM Trans. Math. Softw. 9 (1983) 302 (multifrontal elimination); A. Berman and R. J. Plemmons,
// Nonnegative Matrices in the Mathematical Sciences (1979), ch. 6 (pivots of M-matrices). From memory.

import { InputError } from '../inputError'
import { type Dissection, factorLength } from './dissection'
import { eliminateFront } from './frontElimination'

/** Row-major, index iy * nx + ix: the weight of the cell itself and of its four neighbours. Weights across the border are not read. */
export interface GridMatrix {
  readonly nx: number
  readonly ny: number
  readonly own: Float64Array
  readonly west: Float64Array
  readonly east: Float64Array
  readonly south: Float64Array
  readonly north: Float64Array
}

export interface GridLu {
  readonly dissection: Dissection
  /**
   * Front by front: the rows of the eliminated cells over the whole front, with the inverse pivots on the diagonal, then the
   * multipliers of the other rows.
   */
  readonly values: Float64Array
}

const NOT_IN_FRONT = -1

/** Numbers in all factors, and the most that wait on the stack at a time. */
function lengthsOf({ starts, pivots, isCut }: Dissection) {
  let factors = 0
  let waiting = 0
  let stack = 0
  const open: number[] = []
  pivots.forEach((count, front) => {
    const size = (starts[front + 1] as number) - (starts[front] as number)
    factors += factorLength(size, count)
    if (isCut[front] === 1) waiting -= (open.pop() as number) + (open.pop() as number)
    const left = (size - count) ** 2
    open.push(left)
    waiting += left
    stack = Math.max(stack, waiting)
  })
  return { factors, stack }
}

/** Factors shift - matrix. Throws InputError where the dissection is of another grid. */
export function factorGrid(dissection: Dissection, matrix: GridMatrix, shift: number): GridLu {
  const { factors, stack } = lengthsOf(dissection)
  const values = new Float64Array(factors)
  eliminated(dissection, matrix, shift, new Float64Array(stack), values)
  return { dissection, values }
}

/**
 * Whether every pivot of shift - matrix is above 0; ends at the first front with one that is not. Throws InputError where the
 * dissection is of another grid.
 */
export function hasPositivePivots(dissection: Dissection, matrix: GridMatrix, shift: number): boolean {
  return eliminated(dissection, matrix, shift, new Float64Array(lengthsOf(dissection).stack), null)
}

/** Writes the factors into `values`. Where none are wanted, the first pivot that is not above 0 ends it, with false. */
function eliminated(
  dissection: Dissection,
  matrix: GridMatrix,
  shift: number,
  stack: Float64Array,
  values: Float64Array | null,
): boolean {
  const { nx, ny, cells, starts, pivots, isCut, largestFront } = dissection
  if (matrix.nx !== nx || matrix.ny !== ny) {
    throw new InputError('nx, ny', `${matrix.nx}, ${matrix.ny}`, `${nx}, ${ny}, the dissected grid`)
  }
  const front = new Float64Array((largestFront + 1) * largestFront)
  const positions = new Int32Array(nx * ny).fill(NOT_IN_FRONT)
  const childPositions = new Int32Array(largestFront)
  /** Fronts on the stack. */
  const open: number[] = []
  let top = 0
  let kept = 0

  const takeIn = (child: number, size: number) => {
    const first = (starts[child] as number) + (pivots[child] as number)
    const count = (starts[child + 1] as number) - first
    for (let i = 0; i < count; i++) childPositions[i] = positions[cells[first + i] as number] as number
    top -= count * count
    for (let i = 0; i < count; i++) {
      const row = (childPositions[i] as number) * size
      const from = top + i * count
      for (let j = 0; j < count; j++) {
        const at = row + (childPositions[j] as number)
        front[at] = (front[at] as number) + (stack[from + j] as number)
      }
    }
  }

  for (let number = 0; number < pivots.length; number++) {
    const start = starts[number] as number
    const size = (starts[number + 1] as number) - start
    const count = pivots[number] as number
    front.fill(0, 0, (size + 1) * size)
    for (let i = 0; i < size; i++) positions[cells[start + i] as number] = i
    for (let i = 0; i < count; i++)
      fillPivot(matrix, shift, cells[start + i] as number, positions, front, size, count)
    if (isCut[number] === 1) {
      takeIn(open.pop() as number, size)
      takeIn(open.pop() as number, size)
    }
    for (let i = 0; i < size; i++) positions[cells[start + i] as number] = NOT_IN_FRONT
    const positive = eliminateFront(front, size, count)
    if (values === null) {
      if (!positive) return false
    } else {
      for (let i = 0; i < count * size; i++) values[kept++] = front[i] as number
      for (let i = count; i < size; i++) {
        for (let j = 0; j < count; j++) values[kept++] = front[i * size + j] as number
      }
    }
    for (let i = count; i < size; i++) {
      for (let j = count; j < size; j++) stack[top++] = front[i * size + j] as number
    }
    open.push(number)
  }
  return true
}

/** Writes into a front what the matrix says of a cell that it eliminates: its row, and its column below the pivots. */
function fillPivot(
  { nx, ny, own, west, east, south, north }: GridMatrix,
  shift: number,
  cell: number,
  positions: Int32Array,
  front: Float64Array,
  size: number,
  pivots: number,
): void {
  const position = positions[cell] as number
  const ix = cell % nx
  front[position * size + position] = shift - (own[cell] as number)
  const join = (neighbour: number, toNeighbour: Float64Array, back: Float64Array) => {
    const other = positions[neighbour] as number
    if (other === NOT_IN_FRONT) return
    front[position * size + other] = -(toNeighbour[cell] as number)
    if (other >= pivots) front[other * size + position] = -(back[neighbour] as number)
  }
  if (ix > 0) join(cell - 1, west, east)
  if (ix < nx - 1) join(cell + 1, east, west)
  if (cell >= nx) join(cell - nx, south, north)
  if (cell < nx * (ny - 1)) join(cell + nx, north, south)
}

/** Sum of products of two stretches, in four sums side by side so that none waits for the other. */
function product(a: Float64Array, atA: number, b: Float64Array, atB: number, count: number): number {
  let s0 = 0
  let s1 = 0
  let s2 = 0
  let s3 = 0
  const even = count - (count % 4)
  let i = 0
  for (; i < even; i += 4) {
    s0 += (a[atA + i] as number) * (b[atB + i] as number)
    s1 += (a[atA + i + 1] as number) * (b[atB + i + 1] as number)
    s2 += (a[atA + i + 2] as number) * (b[atB + i + 2] as number)
    s3 += (a[atA + i + 3] as number) * (b[atB + i + 3] as number)
  }
  for (; i < count; i++) s0 += (a[atA + i] as number) * (b[atB + i] as number)
  return s0 + s1 + (s2 + s3)
}

/** Solves in place: `x` comes in as the right side and goes out as the solution. */
export function solveGrid({ dissection, values }: GridLu, x: Float64Array): void {
  const { nx, ny, cells, starts, pivots, largestFront } = dissection
  if (x.length !== nx * ny) throw new InputError('x.length', x.length, `${nx * ny}, the cells of the grid`)
  const part = new Float64Array(largestFront)
  let at = 0
  for (let number = 0; number < pivots.length; number++) {
    const start = starts[number] as number
    const size = (starts[number + 1] as number) - start
    const count = pivots[number] as number
    for (let i = 0; i < count; i++) {
      const cell = cells[start + i] as number
      part[i] = (x[cell] as number) - product(values, at + i * size, part, 0, i)
      x[cell] = part[i] as number
    }
    at += count * size
    for (let i = count; i < size; i++) {
      const cell = cells[start + i] as number
      x[cell] = (x[cell] as number) - product(values, at, part, 0, count)
      at += count
    }
  }
  for (let number = pivots.length - 1; number >= 0; number--) {
    const start = starts[number] as number
    const size = (starts[number + 1] as number) - start
    const count = pivots[number] as number
    at -= factorLength(size, count)
    for (let i = count; i < size; i++) part[i] = x[cells[start + i] as number] as number
    for (let i = count - 1; i >= 0; i--) {
      const cell = cells[start + i] as number
      const row = at + i * size + i
      const rest = (x[cell] as number) - product(values, row + 1, part, i + 1, size - i - 1)
      part[i] = rest * (values[row] as number)
      x[cell] = part[i] as number
    }
  }
}
