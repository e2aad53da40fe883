// Convex bodies of glass as corners and edges, um. Each is described from the middle of its end face, z along its axis towards
// the chip, and reaches backwards from there.

export interface Solid {
  readonly name: string
  /** x, y, z of each corner. */
  readonly corners: Float64Array
  /** Pairs of corner numbers. */
  readonly edges: Uint16Array
}

/** dz/dx and dz/dy of an end face. */
export interface FaceSlopes {
  readonly x: number
  readonly y: number
}

export const UPRIGHT: FaceSlopes = { x: 0, y: 0 }

/** A circle about the axis; the first of a body is its end face. */
export interface Ring {
  readonly zUm: number
  readonly radiusUm: number
}

/** Corners of a circle: the extremes along x and y are among them, and its radius is short by 1.5e-4 between them. */
const AROUND = 180

/** The body that rings make, the end face first, with falling z and a convex profile. `face` turns the plane of the first ring. */
export function revolved(name: string, rings: readonly Ring[], face: FaceSlopes = UPRIGHT): Solid {
  const corners = new Float64Array(3 * AROUND * rings.length)
  const edges = new Uint16Array(2 * AROUND * (2 * rings.length - 1))
  let used = 0
  for (const [r, { zUm, radiusUm }] of rings.entries()) {
    for (let i = 0; i < AROUND; i++) {
      const angle = (2 * Math.PI * i) / AROUND
      const at = r * AROUND + i
      const x = radiusUm * Math.cos(angle)
      const y = radiusUm * Math.sin(angle)
      corners.set([x, y, zUm + (r === 0 ? face.x * x + face.y * y : 0)], 3 * at)
      edges.set([at, r * AROUND + ((i + 1) % AROUND)], used)
      used += 2
      if (r === 0) continue
      edges.set([at, at - AROUND], used)
      used += 2
    }
  }
  return { name, corners, edges }
}

/** A box from its front to `lengthUm` behind it; `face` turns the plane of the front about the axis. */
export function box(
  name: string,
  halfWidthUm: number,
  [fromYUm, toYUm]: readonly [from: number, to: number],
  frontUm: number,
  lengthUm: number,
  face: FaceSlopes = UPRIGHT,
): Solid {
  const corners = new Float64Array(24)
  const edges: number[] = []
  for (let i = 0; i < 8; i++) {
    const x = i & 1 ? halfWidthUm : -halfWidthUm
    const y = i & 2 ? toYUm : fromYUm
    corners.set([x, y, i & 4 ? frontUm - lengthUm : frontUm + face.x * x + face.y * y], 3 * i)
    for (const bit of [1, 2, 4]) if ((i & bit) === 0) edges.push(i, i | bit)
  }
  return { name, corners, edges: Uint16Array.from(edges) }
}
