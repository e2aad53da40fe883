// The state of a relay against its pieces: beams by the q parameter and rays element by element, each plane separately.

import { expect, test } from 'vitest'
import { axialTravelUm } from '../../../src/analysis/path/relay/memberPose'
import { newRelayRecord } from '../../../src/analysis/path/relay/relayGeometry'
import { relayState } from '../../../src/analysis/path/relay/relayOptics'
import {
  beamRadiusUm,
  chainMatrices,
  freeSpace,
  type RayMatrix,
  thickLens,
  transformBeam,
} from '../../../src/optics/index'
import { throughDisplaced } from '../../../src/optics/joint/displaced'

const first = thickLens({ index: 1.5, frontRadiusUm: 600, backRadiusUm: -500, thicknessUm: 300 })
/** A strong first face narrows the beam in the lens, a weak one lets it widen. */
const secondOf = (frontRadiusUm: number) =>
  thickLens({ index: 1.45, frontRadiusUm, backRadiusUm: -260, thicknessUm: 150 })
const geometryWith = (second: RayMatrix) => ({
  ...newRelayRecord(),
  wavelengthUm: 1.55,
  mediumIndex: 1,
  emitterMfdXUm: 10.4,
  emitterMfdYUm: 7.1,
  waistXUm: 3,
  waistYUm: -5,
  offsetXUm: 1.5,
  offsetYUm: -2.5,
  tiltXRad: 0.004,
  tiltYRad: -0.003,
  frontGapUm: 420,
  stretchUm: 3000,
  backGapUm: 130,
  leastBackUm: 100,
  deviceLengthUm: 800,
  deviceIndex: 1.6,
  lens1: {
    ...{ matrix: first, thicknessUm: 300, offsetZUm: 4 },
    ...{ offsetXUm: 6, offsetYUm: -3, tiltXRad: 0.01, tiltYRad: -0.02 },
  },
  lens2: {
    ...{ matrix: second, thicknessUm: 150, offsetZUm: 60 },
    ...{ offsetXUm: -2, offsetYUm: 5, tiltXRad: -0.015, tiltYRad: 0.008 },
  },
})
// Lens 2 stops where it touches the chip, 30 um on.
const [FRONT, STRETCH, BACK] = [424, 3000 - 4 + 30, 100]
const HALF = (STRETCH - 800 * (1 - 1 / 1.6)) / 2

test.each([
  { axis: 'X', frontRadiusUm: 200 },
  { axis: 'X', frontRadiusUm: 5000 },
  { axis: 'Y', frontRadiusUm: 200 },
  { axis: 'Y', frontRadiusUm: 5000 },
] as const)('beams and chief ray in $axis, face of $frontRadiusUm um', ({ axis, frontRadiusUm }) => {
  const second = secondOf(frontRadiusUm)
  const geometry = geometryWith(second)
  const state = relayState(geometry)
  expect([state.frontGapUm, state.stretchUm, state.backGapUm]).toEqual([FRONT, STRETCH, BACK])
  const emitted = {
    waistRadiusUm: geometry[`emitterMfd${axis}Um`] / 2,
    waistDistanceUm: geometry[`waist${axis}Um`],
    wavelengthUm: 1.55,
    index: 1,
  }
  const steps = [freeSpace(FRONT), first, freeSpace(HALF), freeSpace(HALF), second]
  const radii = steps.map((_, i) => {
    const beam = transformBeam(chainMatrices(steps.slice(0, i + 1)), emitted)
    return beamRadiusUm(beam, -beam.waistDistanceUm)
  })
  const [front1 = 0, back1 = 0, middle = 0, front2 = 0, back2 = 0] = radii
  expect(back2 > front2).toBe(frontRadiusUm > 1000)
  expect(state.lens1[`radius${axis}Um`]).toBeCloseTo(Math.max(front1, back1), 9)
  expect(state.device[`radius${axis}Um`]).toBeCloseTo(middle, 9)
  expect(state.lens2[`radius${axis}Um`]).toBeCloseTo(Math.max(front2, back2), 9)
  const image = transformBeam(chainMatrices(steps), emitted)
  expect(state[`image${axis}`].waistRadiusUm).toBeCloseTo(image.waistRadiusUm, 9)
  expect(state[`image${axis}`].waistDistanceUm).toBeCloseTo(image.waistDistanceUm, 6)

  const { lens1, lens2 } = geometry
  const at1 = geometry[`offset${axis}Um`] + FRONT * geometry[`tilt${axis}Rad`]
  const [off1, off2] = [lens1[`offset${axis}Um`], lens2[`offset${axis}Um`]]
  const ray1 = { heightUm: at1, slopeRad: geometry[`tilt${axis}Rad`] }
  const out1 = throughDisplaced(first, 300, off1, lens1[`tilt${axis}Rad`], ray1)
  const ray2 = { heightUm: out1.heightUm + 2 * HALF * out1.slopeRad, slopeRad: out1.slopeRad }
  const out2 = throughDisplaced(second, 150, off2, lens2[`tilt${axis}Rad`], ray2)
  const further = (before: number, behind: number) => (Math.abs(before) > Math.abs(behind) ? before : behind)
  expect(state.lens1[`off${axis}Um`]).toBeCloseTo(further(at1 - off1, out1.heightUm - off1), 9)
  expect(state.device[`off${axis}Um`]).toBeCloseTo(out1.heightUm + HALF * out1.slopeRad, 9)
  expect(state.lens2[`off${axis}Um`]).toBeCloseTo(further(ray2.heightUm - off2, out2.heightUm - off2), 9)
  expect(state[`chief${axis}`].heightUm).toBeCloseTo(out2.heightUm, 9)
  expect(state[`chief${axis}`].slopeRad).toBeCloseTo(out2.slopeRad, 12)
})

test('a member travels along the light until it meets its neighbour, each where it is', () => {
  // Lens 1 is 4 µm and lens 2 is 60 µm further along the light than entered: 424 µm before lens 1, 3000 - 4 + 60 - 800 between the lenses
  // beside the device, 130 - 60 - 20 behind lens 2 where contact is at 20 µm.
  const geometry = { ...geometryWith(secondOf(200)), leastBackUm: 20 }
  expect(axialTravelUm(geometry, 'guide')[1]).toBe(424)
  expect(axialTravelUm(geometry, 'lens1')).toEqual([-424, 2256])
  expect(axialTravelUm(geometry, 'lens2')).toEqual([-2256, 50])
  // Beyond contact, and inside the device, there is no way on.
  expect(axialTravelUm({ ...geometry, leastBackUm: 100, stretchUm: 700 }, 'lens2')).toEqual([0, 0])
})
