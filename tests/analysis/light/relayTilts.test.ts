// What a tilted fibre in front of a telescope returns to the chip: a mirror tilted by t turns the light by 2 t, and a Gaussian of radius w
// that is turned by that couples exp(-(pi n w 2 t / wavelength)^2) back (A. E. Siegman, Lasers (1986), ch. 17; from memory).

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { newIsolator } from '../../../src/model/designs/newElements'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Device } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement } from '../support/families'
import { um } from '../support/realRelays'

/** Thin lenses of 1000 and 300 um, each at its focus, with their foci on each other: 10 um to 3 um, angles the other way. */
function returnsOf(tiltXDeg: number, tiltYDeg: number, offsetXUm = 0, device?: Device) {
  const relay = relayElement({
    ...{ frontGap: um(1000), stretch: um(1300), backGap: um(300), device },
    ...{ tiltX: quantityOf(tiltXDeg, 'deg'), tiltY: quantityOf(tiltYDeg, 'deg'), offsetX: um(offsetXUm) },
  })
  const project: Project = JSON.parse(
    JSON.stringify(familiesProject(relay), (key, value) => (key === 'tolerance' ? undefined : value)),
  )
  project.requirements.wavelength = quantityOf(1550, 'nm')
  for (const fibre of project.fibres) fibre.mode = { kind: 'mfd', mfdX: um(10) }
  for (const facet of project.facets) Object.assign(facet, { mfdX: um(2.4), mfdY: um(3.6) })
  for (const lens of project.lenses) lens.clearAperture = um(5000)
  for (const fibre of project.fibres) fibre.index = { kind: 'value', index: quantityOf(1.45, '1') }
  for (const facet of project.facets) facet.index = { kind: 'value', index: quantityOf(1.8, '1') }
  const { reflections, joints } = evaluateCandidate(project, 'relay')
  const row = (label: string) => reflections.find((each) => each.label === label)
  return {
    ...{ index: joints[0]?.joint.index ?? 1, fibreDb: row('Fibre-side face')?.intoFarDb ?? Number.NaN },
    ...{ chipDb: row('Chip-side face')?.intoNearDb ?? Number.NaN, ownDb: row('Chip-side face')?.intoFarDb },
  }
}
const turnedDb = (wUm: number, tiltDeg: number, index: number) =>
  (10 / Math.LN10) * ((Math.PI * index * wUm * 2 * tiltDeg * Math.PI) / 180 / 1.55) ** 2

test('is the image of the chip mode, turned by twice the tilt, in either plane', () => {
  const straight = returnsOf(0, 0)
  // 2.4 and 3.6 um are imaged to 8 and 12 um on the fibre.
  expect(returnsOf(0.3, 0).fibreDb - straight.fibreDb).toBeCloseTo(turnedDb(4, 0.3, straight.index), 3)
  expect(returnsOf(0, -0.4).fibreDb - straight.fibreDb).toBeCloseTo(turnedDb(6, 0.4, straight.index), 3)
  // The chip's face lies straight across: what it returns to the fibre is turned by the tilt as it arrives, times 10 / 3.
  expect(returnsOf(0.3, 0).chipDb - straight.chipDb).toBeCloseTo(turnedDb(1.5, 1, straight.index), 2)
  expect(returnsOf(0, 0.3).chipDb - straight.chipDb).toBeCloseTo(turnedDb(1.5, 1, straight.index), 2)
})

test('does not change with an offset, which a telescope keeps parallel', () => {
  expect(returnsOf(0, 0, 2).fibreDb).toBeCloseTo(returnsOf(0, 0).fibreDb, 6)
})

test('passes both lenses and the component twice, and an isolator against its direction once', () => {
  const device: Device = {
    ...newIsolator(),
    length: um(100),
    index: quantityOf(1, '1'),
    clearAperture: um(5000),
  }
  const { index, chipDb, fibreDb, ownDb } = returnsOf(0, 0)
  const face = (guide: number) => ((guide - index) / (guide + index)) ** 2
  const dB = (power: number) => -10 * Math.log10(power)
  // Four faces of 0.25 % each way; waists lie on both end faces, so that every mirror returns the mode that it meets.
  const lenses = 0.9975 ** 8
  expect(chipDb).toBeCloseTo(dB(face(1.8) * (1 - face(1.45)) ** 2 * lenses), 3)
  expect(fibreDb).toBeCloseTo(dB(face(1.45) * (1 - face(1.8)) ** 2 * lenses), 3)
  expect(ownDb).toBeCloseTo(dB(face(1.8)), 6)
  // 0.3 dB twice and 30 dB once.
  expect(returnsOf(0, 0, 0, device).chipDb - chipDb).toBeCloseTo(30.6, 3)
  expect(returnsOf(0, 0, 0, device).fibreDb - fibreDb).toBeCloseTo(30.6, 3)
})
