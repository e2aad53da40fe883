// What a tilted fibre in front of a telescope returns to the chip: a mirror tilted by t turns the light by 2 t, and a Gaussian of radius w
// that is turned by that couples exp(-(pi n w 2 t / wavelength)^2) back (A. E. Siegman, Lasers (1986), ch. 17; from memory).

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement } from '../support/families'
import { um } from '../support/realRelays'

/** Thin lenses of 1000 and 300 um, each at its focus, with their foci on each other: 10 um to 3 um, angles the other way. */
function returnsOf(tiltXDeg: number, tiltYDeg: number, offsetXUm = 0) {
  const relay = relayElement({
    ...{ frontGap: um(1000), stretch: um(1300), backGap: um(300), device: undefined },
    ...{ tiltX: quantityOf(tiltXDeg, 'deg'), tiltY: quantityOf(tiltYDeg, 'deg'), offsetX: um(offsetXUm) },
  })
  const project: Project = JSON.parse(
    JSON.stringify(familiesProject(relay), (key, value) => (key === 'tolerance' ? undefined : value)),
  )
  project.requirements.wavelength = quantityOf(1550, 'nm')
  for (const fibre of project.fibres) fibre.mode = { kind: 'mfd', mfdX: um(10) }
  for (const facet of project.facets) Object.assign(facet, { mfdX: um(2.4), mfdY: um(3.6) })
  for (const lens of project.lenses) lens.clearAperture = um(5000)
  const { reflections, joints } = evaluateCandidate(project, 'relay')
  const row = (label: string) => reflections.find((each) => each.label === label)
  return {
    ...{ index: joints[0]?.joint.index ?? 1, fibreDb: row('Fibre-side face')?.intoFarDb ?? Number.NaN },
    chipDb: row('Chip-side face')?.intoNearDb ?? Number.NaN,
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
