// A grid of cells that are finest at the edges of cores and grow away from them, so that the border can be far away
// at little cost: a stretched border. Every edge of the structure is a face between cells. A grid refined by doubling keeps
// its shape, so that errors fall with the square of the cell size.

import { InputError } from '../../numerics/inputError'

export interface GridAxis {
  /** Faces of the cells, one more than there are cells. */
  readonly faces: Float64Array
  /** Where the values are sampled; between the faces, but not always midway. */
  readonly centres: Float64Array
  /** Where the border is: the outermost faces, or half a cell beyond them. */
  readonly ends: readonly [number, number]
}

/** An edge where cells are fine: about `sizeUm` wide before scaling to the requested count. */
export interface FineEdge {
  readonly atUm: number
  readonly sizeUm: number
}

/** How fast cells grow with the distance from an edge. */
const GROWTH = 0.5
/** Points per section for the cumulative count of cells. */
const SAMPLES = 1024

interface Section {
  readonly from: number
  readonly to: number
  /** Number of cells up to equally spaced positions in the section, before scaling. */
  readonly running: Float64Array
}

function sectionOf(from: number, to: number, edges: readonly FineEdge[]): Section {
  const sizeAt = (x: number) =>
    edges.reduce(
      (least, edge) => Math.min(least, edge.sizeUm + GROWTH * Math.abs(x - edge.atUm)),
      Number.POSITIVE_INFINITY,
    )
  const step = (to - from) / SAMPLES
  const running = new Float64Array(SAMPLES + 1)
  for (let i = 0; i < SAMPLES; i++) {
    // Simpson's rule over each step
    const x = from + i * step
    const mean = (1 / sizeAt(x) + 4 / sizeAt(x + step / 2) + 1 / sizeAt(x + step)) / 6
    running[i + 1] = (running[i] as number) + mean * step
  }
  return { from, to, running }
}

/** The position at which the cumulative count reaches a given share of its total. */
function positionAt({ from, to, running }: Section, share: number): number {
  const wanted = share * (running[SAMPLES] as number)
  let i = 0
  for (let step = SAMPLES / 2; step >= 1; step /= 2) {
    if ((running[i + step] as number) <= wanted && i + step < SAMPLES) i += step
  }
  const low = running[i] as number
  const part = (wanted - low) / ((running[i + 1] as number) - low)
  return from + ((i + part) * (to - from)) / SAMPLES
}

export interface AxisPlan {
  readonly sections: readonly Section[]
  /** Cells of each section on the coarsest grid. */
  readonly counts: readonly number[]
}

/**
 * Plans an axis from the faces that it must include (sorted here), for about `cells` cells after doubling `doublings`
 * times. Every section keeps at least `least` cells on the coarsest grid.
 */
export function planAxis(
  breaks: readonly number[],
  edges: readonly FineEdge[],
  cells: number,
  doublings: number,
): AxisPlan {
  const sorted = [...new Set(breaks)].sort((a, b) => a - b)
  const distinct = sorted.filter((position, at) => at === 0 || position - (sorted[at - 1] as number) > 1e-6)
  if (distinct.length < 2) throw new InputError('breaks', distinct.length, 'at least two different positions')
  const sections = distinct.slice(1).map((to, at) => sectionOf(distinct[at] as number, to, edges))
  const wanted = Math.round(cells / 2 ** doublings)
  const countsAt = (scale: number) =>
    sections.map(({ running }) => Math.max(1, Math.round(scale * (running[SAMPLES] as number))))
  const total = (counts: readonly number[]) => counts.reduce((sum, count) => sum + count, 0)
  if (sections.length > wanted) {
    throw new InputError(
      'number of cells',
      cells,
      `at least ${sections.length * 2 ** doublings} for so many edges`,
    )
  }
  let low = 0
  let high = 1
  while (total(countsAt(high)) < wanted) high *= 2
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2
    if (total(countsAt(middle)) > wanted) high = middle
    else low = middle
  }
  return { sections, counts: countsAt(low) }
}

/** The axis of a plan, doubled `doublings` times. */
export function axisOf({ sections, counts }: AxisPlan, doublings: number): GridAxis {
  const faces: number[] = [sections[0]?.from ?? 0]
  sections.forEach((section, at) => {
    const count = (counts[at] as number) * 2 ** doublings
    for (let i = 1; i < count; i++) faces.push(positionAt(section, i / count))
    faces.push(section.to)
  })
  return axisFromFaces(Float64Array.from(faces))
}

export function axisFromFaces(faces: Float64Array): GridAxis {
  const centres = new Float64Array(faces.length - 1)
  for (let i = 0; i < centres.length; i++) centres[i] = ((faces[i] as number) + (faces[i + 1] as number)) / 2
  return { faces, centres, ends: [faces[0] as number, faces.at(-1) ?? 0] }
}

/** Widths of the cells. */
export function cellSizes({ faces }: GridAxis): Float64Array {
  return Float64Array.from(
    { length: faces.length - 1 },
    (_, i) => (faces[i + 1] as number) - (faces[i] as number),
  )
}

/**
 * The axis whose values are sampled on the faces of another one and whose cells reach from centre to centre there. The outermost
 * faces are borders and hold no value, except the first one with `keepFirst`.
 */
export function dualAxis({ faces, centres, ends }: GridAxis, keepFirst: boolean): GridAxis {
  return {
    faces: keepFirst ? Float64Array.from([faces[0] as number, ...centres]) : centres,
    centres: keepFirst ? faces.subarray(0, -1) : faces.subarray(1, -1),
    ends,
  }
}

/** Whether the first value of a half axis lies on the mirror itself. */
const startsOnMirror = ({ centres, ends }: GridAxis): boolean => centres[0] === ends[0]

/** The axis that a half axis, which begins at the mirror, is half of. */
export function mirrored(axis: GridAxis): GridAxis {
  const [at, end] = axis.ends
  const image = (position: number) => 2 * at - position
  const onMirror = startsOnMirror(axis)
  const centres = axis.centres.subarray(onMirror ? 1 : 0)
  const faces = axis.faces.subarray(1)
  return {
    faces: Float64Array.from([...Array.from(faces, image).reverse(), ...(onMirror ? faces : axis.faces)]),
    centres: Float64Array.from([...Array.from(centres, image).reverse(), ...axis.centres]),
    ends: [image(end), end],
  }
}

/** A field on the half axis, extended to the whole axis; row-major, `sign` -1 where it changes sign at the mirror. */
export function mirroredField(field: Float64Array, x: GridAxis, sign: 1 | -1): Float64Array {
  const nx = x.centres.length
  const ny = field.length / nx
  const skipped = startsOnMirror(x) ? 1 : 0
  const left = nx - skipped
  const out = new Float64Array((left + nx) * ny)
  for (let iy = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++) {
      const value = field[iy * nx + ix] as number
      out[iy * (left + nx) + left + ix] = value
      if (ix >= skipped) out[iy * (left + nx) + left - 1 - (ix - skipped)] = sign * value
    }
  }
  return out
}
