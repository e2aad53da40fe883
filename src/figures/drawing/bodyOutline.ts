// The outline of a body that is brought up to the chip, seen along the other transverse axis: the hull of its corners.

import type { Solid } from '../../analysis/clearance/solids'
import type { OutlinePoint } from './envelope'

const turn = (a: OutlinePoint, b: OutlinePoint, c: OutlinePoint) =>
  (b.zUm - a.zUm) * (c.vUm - a.vUm) - (b.vUm - a.vUm) * (c.zUm - a.zUm)

/** One side of the hull, from points in the order of z. */
function chain(points: readonly OutlinePoint[]): OutlinePoint[] {
  const out: OutlinePoint[] = []
  for (const point of points) {
    for (;;) {
      const [a, b] = [out.at(-2), out.at(-1)]
      if (a === undefined || b === undefined || turn(a, b, point) > 0) break
      out.pop()
    }
    out.push(point)
  }
  return out.slice(0, -1)
}

/** Closed outline in the body's own frame; what lies behind `leftUm` is cut there. */
export function bodyOutline({ corners }: Solid, axis: 'x' | 'y', leftUm: number): readonly OutlinePoint[] {
  const across = axis === 'x' ? 0 : 1
  const points = Array.from({ length: corners.length / 3 }, (_, i) => ({
    zUm: Math.max(leftUm, corners[3 * i + 2] ?? 0),
    vUm: corners[3 * i + across] ?? 0,
  })).sort((a, b) => a.zUm - b.zUm || a.vUm - b.vUm)
  return [...chain(points), ...chain(points.toReversed())]
}
