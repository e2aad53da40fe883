// An excess that is a parabola over the gap and of the fourth degree across the axis must come out as it went in.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type TipPlace, tipOffAxis, tipPlaceAt } from '../../../../src/analysis/path/guides/tipOffAxis'
import { uniform } from '../../../support/arbitrary'

const excessDb = ({ offsetXUm: x, offsetYUm: y, tiltXRad: tx, tiltYRad: ty, gapUm: g }: TipPlace) =>
  7 +
  3 * g +
  (1 + 0.2 * g - 0.03 * g * g) * (x * x + 40 * x * tx + 0.3 * x ** 4) +
  (2 - 0.1 * g + 0.01 * g * g) * (y - 30 * y * ty + 500 * ty * ty)
const CENTRED: TipPlace = { offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0, gapUm: 0 }

/** Ends in the order offset x, y, gap, tilt x, y. */
const REGION = { from: [-1, -0.5, 2, -0.02, 0.01], to: [0.6, 1.5, 10, 0.03, 0.05] }
const moved = tipOffAxis(excessDb, REGION)
const byHand = (place: TipPlace) => excessDb(place) - excessDb({ ...CENTRED, gapUm: place.gapUm })

const places = fc.tuple(...REGION.from.map((from, i) => uniform(from, REGION.to[i] ?? from)))

describe('what a tip loses off its axis', () => {
  test('is the excess over that of the centred tip at the same gap', () => {
    fc.assert(
      fc.property(places, (at) => {
        const place = tipPlaceAt(at)
        expect(moved(place)).toBeCloseTo(byHand(place), 8)
      }),
      { numRuns: 50 },
    )
    const middle = tipPlaceAt([0.3, 0.4, 6, 0.01, 0.02])
    expect(moved(middle)).toBeCloseTo(byHand(middle), 8)
  })

  test('holds at the ends of the region beyond them', () => {
    const beyond = tipPlaceAt([-3, 4, 15, 0.2, -0.1])
    expect(moved(beyond)).toBeCloseTo(byHand(tipPlaceAt([-1, 1.5, 10, 0.03, 0.01])), 8)
    const below = tipPlaceAt([2, -4, 0, -0.2, 0.1])
    expect(moved(below)).toBeCloseTo(byHand(tipPlaceAt([0.6, -0.5, 2, -0.02, 0.05])), 8)
    expect(tipPlaceAt([0, 0, -3, 0, 0]).gapUm).toBe(0)
  })

  test('needs no room along an axis that nothing moves', () => {
    const still = tipOffAxis(excessDb, { from: [0.2, -0.1, 5, 0.01, 0], to: [0.2, -0.1, 5, 0.01, 0] })
    const place = tipPlaceAt([0.2, -0.1, 5, 0.01, 0])
    expect(still(place)).toBeCloseTo(byHand(place), 6)
  })
})
