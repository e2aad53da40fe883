// Nested dissection of a regular grid: the order in which its cells are eliminated so that little fills in. A line of cells
// across the middle cuts the grid in two, each half is cut in the same way, and every cut comes after its two halves. What is
// left of a rectangle once its cells have been eliminated concerns only the cells around it: its front has the cells of the cut,
// which are eliminated, and those around the rectangle, which stay. Factors of n cells then hold about n log n numbers
// and take about n^(3/2) operations, where a band holds n^(3/2) and takes n^2.
// Source: J. A. George, SIAM J. Numer. Anal. 10 (1973) 345 (from memory).

import { InputError } from '../inputError'

/** Fronts in the order of elimination: the two halves of a rectangle before its cut. Cells are numbered iy * nx + ix. */
export interface Dissection {
  readonly nx: number
  readonly ny: number
  /** Cells of all fronts, one front after the other: those to be eliminated, then those around its rectangle. */
  readonly cells: Int32Array
  /** Where each front begins in `cells`; one more than there are fronts. */
  readonly starts: Int32Array
  /** How many cells each front eliminates. */
  readonly pivots: Int32Array
  /** 1 where a front is a cut, and takes in the two fronts that are open before it; 0 for a rectangle left whole. */
  readonly isCut: Uint8Array
  /** Most cells in a front. */
  readonly largestFront: number
}

/** Rectangles of so few cells are not cut: their fronts are nearly full anyway. */
const WHOLE = 9

interface Rectangle {
  readonly left: number
  readonly bottom: number
  readonly width: number
  readonly height: number
}

/** Dissects a grid of nx by ny cells with neighbours to the left, right, below and above. Throws InputError for impossible sizes. */
export function dissectGrid(nx: number, ny: number): Dissection {
  for (const [name, count] of Object.entries({ nx, ny })) {
    if (!Number.isInteger(count) || count < 1) throw new InputError(name, count, 'a whole number above 0')
  }
  const cells: number[] = []
  const starts: number[] = [0]
  const pivots: number[] = []
  const isCut: number[] = []
  let largestFront = 0

  const addCells = ({ left, bottom, width, height }: Rectangle) => {
    for (let iy = bottom; iy < bottom + height; iy++) {
      for (let ix = left; ix < left + width; ix++) cells.push(iy * nx + ix)
    }
  }
  /** The front of a rectangle: eliminates `inner`, which is all that is left of it. */
  const addFront = ({ left, bottom, width, height }: Rectangle, inner: Rectangle, cut: boolean) => {
    const start = cells.length
    addCells(inner)
    pivots.push(cells.length - start)
    if (bottom > 0) addCells({ left, bottom: bottom - 1, width, height: 1 })
    if (left > 0) addCells({ left: left - 1, bottom, width: 1, height })
    if (left + width < nx) addCells({ left: left + width, bottom, width: 1, height })
    if (bottom + height < ny) addCells({ left, bottom: bottom + height, width, height: 1 })
    starts.push(cells.length)
    isCut.push(cut ? 1 : 0)
    largestFront = Math.max(largestFront, cells.length - start)
  }
  const dissect = (rectangle: Rectangle) => {
    const { left, bottom, width, height } = rectangle
    if (width * height <= WHOLE) {
      addFront(rectangle, rectangle, false)
    } else if (width >= height) {
      const before = Math.floor(width / 2)
      dissect({ ...rectangle, width: before })
      dissect({ ...rectangle, left: left + before + 1, width: width - before - 1 })
      addFront(rectangle, { ...rectangle, left: left + before, width: 1 }, true)
    } else {
      const before = Math.floor(height / 2)
      dissect({ ...rectangle, height: before })
      dissect({ ...rectangle, bottom: bottom + before + 1, height: height - before - 1 })
      addFront(rectangle, { ...rectangle, bottom: bottom + before, height: 1 }, true)
    }
  }
  dissect({ left: 0, bottom: 0, width: nx, height: ny })
  return {
    nx,
    ny,
    cells: Int32Array.from(cells),
    starts: Int32Array.from(starts),
    pivots: Int32Array.from(pivots),
    isCut: Uint8Array.from(isCut),
    largestFront,
  }
}

/** Numbers that the factors of a front hold: the rows and columns of what it eliminates. */
export const factorLength = (size: number, pivots: number): number => pivots * (2 * size - pivots)
