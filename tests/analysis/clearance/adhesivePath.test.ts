// Adhesive layer and fillet by hand: strips of the circle added up, and rectangles.

import { expect, test } from 'vitest'
import { adhesivePath } from '../../../src/analysis/clearance/adhesivePath'
import type { ClearanceSetup } from '../../../src/analysis/clearance/jointClearance'
import { quantityOf } from '../../../src/model/quantity/quantity'

const flat = { x: 0, y: 0 }

function setup(
  edge: Partial<NonNullable<ClearanceSetup['edge']>>,
  outline?: NonNullable<ClearanceSetup['end']>['outline'],
) {
  return {
    solids: [],
    obstacles: [],
    nearFace: flat,
    farFace: flat,
    edge: {
      recessUm: 0,
      ledgeDepthUm: 0,
      trench: null,
      topUm: 5,
      bottomUm: -695,
      lid: null,
      grooved: false,
      ...edge,
    },
    end: { acrossUm: 125, isFibre: true, outline },
  } satisfies ClearanceSetup
}

/** Area of a circle between two heights, as 200,000 strips. */
function strips(radiusUm: number, fromUm: number, toUm: number): number {
  const [low, high] = [Math.max(-radiusUm, fromUm), Math.min(radiusUm, toUm)]
  const step = (high - low) / 200_000
  let area = 0
  for (let i = 0; i < 200_000; i++)
    area += 2 * Math.sqrt(radiusUm ** 2 - (low + (i + 0.5) * step) ** 2) * step
  return area
}

test('a bare chip in front of the facet is bonded as the square block that its contact is found with', () => {
  const chip = { ...setup({}), end: { acrossUm: 250, isFibre: false } } satisfies ClearanceSetup
  const path = adhesivePath(chip, 10)
  expect(path?.bondAreaUm2).toBeCloseTo(250 * 130, 9)
  // 120 um of it are above the surface, over its whole width.
  expect(path?.filletUm3).toBeCloseTo(((120 * 120) / 2) * 250, 9)
})

test('a fibre on a chip whose surface is 5 um above the waveguide: the lower half and 5 um of the circle are bonded', () => {
  const path = adhesivePath(setup({}), 4)
  expect(path?.bondAreaUm2).toBeCloseTo(strips(62.5, -62.5, 5), 1)
  expect(path?.layerUm3).toBeCloseTo(4 * strips(62.5, -62.5, 5), 0)
  // 57.5 um of the fibre are above the surface, over a chord of 2 sqrt(62.5^2 - 25) = 124.599 um: a wedge of 57.5^2 / 2.
  expect(path?.aboveSurfaceUm).toBe(57.5)
  expect(path?.filletUm3).toBeCloseTo(((57.5 * 57.5) / 2) * 124.599, -1)
})

test('a ledge beyond the gap shades the face below it, and a lid leaves a shorter fillet', () => {
  const path = adhesivePath(
    setup({ recessUm: 6, ledgeDepthUm: 10, lid: { heightUm: 300, distanceUm: 20 } }),
    4,
  )
  expect(path?.bondAreaUm2).toBeCloseTo(strips(62.5, -10, 5), 1)
  expect(path?.filletLegUm).toBe(20)
  expect(path?.filletUm3).toBeCloseTo(200 * 124.599, 0)
  // At a gap of 8 um the ledge ends before the face of the fibre: the whole lower half again.
  expect(adhesivePath(setup({ recessUm: 6, ledgeDepthUm: 10 }), 8)?.bondAreaUm2).toBeCloseTo(
    strips(62.5, -62.5, 5),
    1,
  )
})

test('a glass block bonds by its rectangle; a lensed tip, and a chip without an edge, have no numbers', () => {
  const block = {
    kind: 'block' as const,
    width: quantityOf(2.5, 'mm'),
    below: quantityOf(1, 'mm'),
    above: quantityOf(1.5, 'mm'),
  }
  const path = adhesivePath(setup({}, block), 3)
  // 2500 um by 695 um of chip below the waveguide and 5 um above.
  expect(path?.bondAreaUm2).toBe(2500 * 700)
  expect(path?.aboveSurfaceUm).toBe(1495)
  expect(path?.filletUm3).toBe((1495 ** 2 / 2) * 2500)
  const tip = setup({})
  expect(adhesivePath({ ...tip, end: { ...tip.end, tipRadiusUm: 10 } }, 3)).toBeNull()
  expect(adhesivePath({ ...tip, edge: null }, 3)).toBeNull()
})
