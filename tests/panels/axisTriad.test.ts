// The third axis of a view, by the vector product of the other two.

import { expect, test } from 'vitest'
import { AxisTriad } from '../../src/panels/drawing/AxisTriad'

type Vector = readonly [right: number, up: number, out: number]

const cross = ([a, b, c]: Vector, [d, e, f]: Vector): Vector => [b * f - c * e, c * d - a * f, a * e - b * d]
const right: Vector = [1, 0, 0]
const up: Vector = [0, 1, 0]

test.each([
  ['x', cross(right, up)], // y = z × x
  ['y', cross(up, right)], // x = y × z
] as const)(
  'with z right and %s up the third axis of a right-handed frame points out of the picture, marked by a dot, or into it',
  (axis, [, , out]) => {
    const markup = JSON.stringify(AxisTriad({ axis, leftPx: 0, bottomPx: 0 }))
    expect(markup.includes('drawn-triad-dot')).toBe(out > 0)
  },
)
