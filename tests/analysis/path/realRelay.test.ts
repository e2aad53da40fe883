// Real less paraxial loss of a relay by its distances.

import { expect, test } from 'vitest'
import { differenceAlong, relayWaves } from '../../../src/analysis/path/relay/realRelay'
import { newRelayRecord, type RelayGeometry } from '../../../src/analysis/path/relay/relayGeometry'
import { FLAT_FACE, sphericalFace, thickLens } from '../../../src/optics/index'

const FLAT = Number.POSITIVE_INFINITY
const glass = (radiusUm: number, thicknessUm: number) => ({
  shape: {
    index: 1.5,
    mediumIndex: 1,
    thicknessUm,
    first: FLAT_FACE,
    last: sphericalFace(-radiusUm),
  },
  towards: thickLens({ index: 1.5, frontRadiusUm: FLAT, backRadiusUm: -radiusUm, thicknessUm }),
  away: thickLens({ index: 1.5, frontRadiusUm: radiusUm, backRadiusUm: FLAT, thicknessUm }),
})
const lens1 = glass(500, 300)
const lens2 = glass(150, 100)
const placed = (matrix: RelayGeometry['lens1']['matrix'], thicknessUm: number) => ({
  matrix,
  thicknessUm,
  offsetXUm: 0,
  offsetYUm: 0,
  offsetZUm: 0,
  tiltXRad: 0,
  tiltYRad: 0,
})
const relay = (change: Partial<RelayGeometry>): RelayGeometry => ({
  ...newRelayRecord(),
  wavelengthUm: 1.55,
  mediumIndex: 1,
  emitterMfdXUm: 10.4,
  emitterMfdYUm: 10.4,
  waistXUm: 0,
  waistYUm: 0,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 3.4,
  offsetXUm: 0,
  offsetYUm: 0,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
  frontGapUm: 780,
  stretchUm: 2000,
  backGapUm: 230,
  deviceLengthUm: 0,
  deviceIndex: 1,
  lens1: placed(lens1.towards, 300),
  lens2: placed(lens2.away, 100),
  ...change,
})
const shapes = [lens1.shape, lens2.shape] as const
const alongDb = (g: RelayGeometry) => differenceAlong(g, shapes, relayWaves(g, 80))(g.frontGapUm, g.backGapUm)

test('a guide with its waists apart along x and y counts as a round one with its waist in the middle, on both sides of the difference', () => {
  const round = relay({ waistXUm: 10, waistYUm: 10 })
  const apart = relay({ waistXUm: 60, waistYUm: -40 })
  expect(alongDb(round)).toBeGreaterThan(0.05)
  expect(alongDb(apart)).toBeCloseTo(alongDb(round), 12)
})
